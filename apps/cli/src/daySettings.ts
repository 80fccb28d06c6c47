import { dimensions, type Issue, isRange, quantityOf } from "@startgap/cabinet";
import type { DayOptions, Season } from "@startgap/study";
import { numberOf, secondsOf } from "./time.ts";

/** The options of a day, as typed. */
export interface DayFlags {
  readonly season?: string;
  readonly hours?: string;
  readonly demand?: string;
  readonly calls?: string;
  readonly outage?: string;
  readonly outageFor?: string;
}

type DaySettings = Pick<DayOptions, "season" | "hours" | "demand_m3ps" | "callsPerHour" | "outage">;

interface Setting {
  readonly flag: keyof DayFlags;
  /** As it is typed. */
  readonly option: string;
  readonly read: (text: string) => number | string | null;
  readonly expected: string;
}

const seasons: readonly Season[] = ["summer", "winter"];
const CFM_m3ps = 0.3048 ** 3 / 60;
const MOST_m3ps = 200 * CFM_m3ps;
const LONGEST_h = 168;
const clockTime = /^([01]?\d|2[0-3]):([0-5]\d)$/;

const within = (low: number, high: number, value: number | null): number | null =>
  value !== null && value >= low && value <= high ? value : null;

/** A flow of free air as a file writes it, m3/s. */
function flowOf(text: string): number | null {
  const read = text.length > 80 ? null : quantityOf(text, dimensions.flow);
  return read !== null && isRange(read) ? read.nominal : null;
}

/** A time of day, as "14:30" or "15 h". */
function clockOf(text: string): number | null {
  const match = clockTime.exec(text.trim());
  return match === null ? secondsOf(text) : 3600 * Number(match[1]) + 60 * Number(match[2]);
}

/** Hours as a plain number, or with their unit. */
function hoursOf(text: string): number | null {
  const plain = numberOf(text);
  const typed = secondsOf(text);
  return plain ?? (typed === null ? null : typed / 3600);
}

const settings: readonly Setting[] = [
  {
    flag: "season",
    option: "--season",
    read: (text) => seasons.find((name) => name === text.trim().toLowerCase()) ?? null,
    expected: "summer or winter",
  },
  {
    flag: "hours",
    option: "--hours",
    read: (text) => within(0.1, LONGEST_h, hoursOf(text)),
    expected: "hours from 0.1 to 168, as 24",
  },
  {
    flag: "demand",
    option: "--demand",
    read: (text) => within(0, MOST_m3ps, flowOf(text)),
    expected: 'a flow of free air from 0 cfm to 200 cfm, as "4 cfm" or "2 l/s"',
  },
  {
    flag: "calls",
    option: "--calls",
    read: (text) => within(0.1, 30, numberOf(text)),
    expected: "calls an hour from 0.1 to 30, as 4",
  },
  {
    flag: "outage",
    option: "--outage",
    read: (text) => within(1, LONGEST_h * 3600, clockOf(text)),
    expected: 'a time of day after midnight, as "14:30" or "15 h"',
  },
  {
    flag: "outageFor",
    option: "--outage-for",
    read: (text) => within(0.001, 12 * 3600, secondsOf(text)),
    expected: 'a time from 1 ms to 12 h, as "10 s"',
  },
];

const USUAL_OUTAGE_s = 10;

/** The typed options in SI, and everything that is wrong with them. */
export function readDaySettings(flags: DayFlags): { options: DaySettings; issues: readonly Issue[] } {
  const values = new Map<keyof DayFlags, number | string>();
  const issues: Issue[] = [];
  for (const { flag, option, read, expected } of settings) {
    const text = flags[flag];
    if (text === undefined) continue;
    const value = read(text);
    if (value === null) issues.push({ path: option, expected, received: JSON.stringify(text.slice(0, 80)) });
    else values.set(flag, value);
  }
  const numberAt = (flag: keyof DayFlags): number | undefined => {
    const value = values.get(flag);
    return typeof value === "number" ? value : undefined;
  };
  const [at_s, hours] = [numberAt("outage"), numberAt("hours")];
  if (flags.outageFor !== undefined && flags.outage === undefined)
    issues.push({ path: "--outage-for", expected: "--outage with it, which says when", received: "none" });
  if (at_s !== undefined && at_s >= 3600 * (hours ?? 24))
    issues.push({
      path: "--outage",
      expected: `a time before the ${hours ?? 24} h end`,
      received: JSON.stringify(flags.outage),
    });
  const options: DaySettings = {
    season: seasons.find((name) => name === values.get("season")),
    hours,
    demand_m3ps: numberAt("demand"),
    callsPerHour: numberAt("calls"),
    outage: at_s === undefined ? undefined : { at_s, length_s: numberAt("outageFor") ?? USUAL_OUTAGE_s },
  };
  return { options, issues };
}
