import type { Issue } from "@startgap/cabinet";
import type { CaseName, WaveOptions } from "@startgap/study";
import { secondsOf } from "./time.ts";

/** The options of a waveform, as typed. */
export interface WaveFlags {
  readonly case?: string;
  readonly from?: string;
  readonly to?: string;
  readonly angle?: string;
  readonly clamp?: string;
}

type WaveSettings = Pick<WaveOptions, "case" | "from_s" | "to_s" | "angle_deg" | "clampWindow_s">;

/** One option: what it sets, or null for what is none of it. */
interface Setting {
  readonly flag: keyof WaveFlags;
  readonly field: keyof WaveSettings;
  readonly read: (text: string) => number | string | null;
  readonly expected: string;
}

const cases: readonly CaseName[] = ["one", "together", "staggered"];
const angle = /^(-?(?:\d+\.?\d*|\.\d+))\s*(?:deg|degree|degrees|°)?$/i;

const within =
  (low: number, high: number) =>
  (text: string): number | null => {
    const value = secondsOf(text);
    return value !== null && value >= low && value <= high ? value : null;
  };

function angleOf(text: string): number | "worst" | null {
  if (text.trim().toLowerCase() === "worst") return "worst";
  const match = angle.exec(text.trim());
  const value = match === null ? Number.NaN : Number(match[1]);
  return Math.abs(value) <= 360 ? value : null;
}

const settings: readonly Setting[] = [
  {
    flag: "case",
    field: "case",
    read: (text) => cases.find((name) => name === text.trim()) ?? null,
    expected: "one, together or staggered",
  },
  { flag: "from", field: "from_s", read: within(0, 600), expected: 'a time from 0 s to 600 s, as "5.9 s"' },
  { flag: "to", field: "to_s", read: within(0, 600), expected: 'a time up to 600 s, as "6.5 s"' },
  {
    flag: "angle",
    field: "angle_deg",
    read: angleOf,
    expected: 'an angle from -360 to 360 degrees, as "30 deg", or worst',
  },
  {
    flag: "clamp",
    field: "clampWindow_s",
    read: within(0.001, 10),
    expected: 'a time from 1 ms to 10 s, as "100 ms"',
  },
];

const issueOf = ({ flag, expected }: Setting, text: string): Issue => ({
  path: `--${flag}`,
  expected,
  received: JSON.stringify(text.slice(0, 80)),
});

/** The typed options in SI, and everything that is wrong with them. */
export function readWaveSettings(flags: WaveFlags): { options: WaveSettings; issues: readonly Issue[] } {
  const typed = settings.flatMap((setting) => {
    const text = flags[setting.flag];
    return text === undefined ? [] : [{ setting, text, value: setting.read(text) }];
  });
  const options: WaveSettings = Object.fromEntries(typed.map(({ setting, value }) => [setting.field, value]));
  const issues = typed.flatMap(({ setting, text, value }) =>
    value === null ? [issueOf(setting, text)] : [],
  );
  const { from_s = 0, to_s } = options;
  const backwards = typeof to_s === "number" && to_s <= from_s && issues.length === 0;
  const late = {
    path: "--to",
    expected: `a time after ${from_s} s, where the window begins`,
    received: `${to_s} s`,
  };
  return { options, issues: backwards ? [late] : issues };
}
