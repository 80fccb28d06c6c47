import type { Issue } from "@startgap/cabinet";
import type { StudyOptions } from "@startgap/study";
import { numberOf, secondsOf } from "./time.ts";

/** The options that set a study, as typed. */
export interface SettingFlags {
  readonly delay?: string;
  readonly duration?: string;
  readonly tolerance?: string;
  readonly longest?: string;
  readonly step?: string;
}

interface Setting {
  readonly flag: keyof SettingFlags;
  readonly field: "delay_s" | "duration_s" | "tolerance" | "longestDelay_s" | "delayStep_s";
  readonly read: (text: string) => number | null;
  readonly low: number;
  readonly high: number;
  readonly expected: string;
}

/** A day of cycling is the longest story anybody asks for; an hour is more than any delay relay's dial. */
const settings: readonly Setting[] = [
  {
    flag: "delay",
    field: "delay_s",
    read: secondsOf,
    low: 0,
    high: 3600,
    expected: 'a time from 0 s to 1 h, as "6 s"',
  },
  {
    flag: "duration",
    field: "duration_s",
    read: secondsOf,
    low: 0.1,
    high: 86_400,
    expected: 'a time from 0.1 s to 24 h, as "15 s"',
  },
  {
    flag: "tolerance",
    field: "tolerance",
    read: numberOf,
    low: 1e-10,
    high: 1e-3,
    expected: "a number from 1e-10 to 1e-3, as 1e-6",
  },
  {
    flag: "longest",
    field: "longestDelay_s",
    read: secondsOf,
    low: 0.1,
    high: 3600,
    expected: 'a time from 0.1 s to 1 h, as "12 s"',
  },
  {
    flag: "step",
    field: "delayStep_s",
    read: secondsOf,
    low: 0.001,
    high: 60,
    expected: 'a time from 1 ms to 1 min, as "0.1 s"',
  },
];

/** More delays than this are a slip of the finger, not a map. */
const MOST_DELAYS = 10_000;

/** One value or one issue. */
function readSetting(setting: Setting, text: string): number | Issue {
  const { flag, read, low, high, expected } = setting;
  const value = read(text);
  if (value !== null && value >= low && value <= high) return value;
  return { path: `--${flag}`, expected, received: JSON.stringify(text.slice(0, 80)) };
}

function tooMany(options: StudyOptions): Issue[] {
  const { longestDelay_s = 12, delayStep_s = 0.1 } = options;
  if (longestDelay_s / delayStep_s <= MOST_DELAYS) return [];
  const received = `${longestDelay_s} s in steps of ${delayStep_s} s`;
  return [{ path: "--step", expected: `at most ${MOST_DELAYS} delays up to --longest`, received }];
}

/** The typed options in SI, or everything that is wrong with them. */
export function readSettings(flags: SettingFlags): { options: StudyOptions } | { issues: readonly Issue[] } {
  const read = settings
    .filter((setting) => flags[setting.flag] !== undefined)
    .map((setting) => [setting.field, readSetting(setting, flags[setting.flag] ?? "")] as const);
  const issues = read.flatMap(([, value]) => (typeof value === "number" ? [] : [value]));
  if (issues.length > 0) return { issues };
  const options: StudyOptions = Object.fromEntries(read);
  const excess = tooMany(options);
  return excess.length > 0 ? { issues: excess } : { options };
}
