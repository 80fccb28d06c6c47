import { type FuseParameters, type MeltTerms, meltingTime_s } from "@startgap/circuit";
import type { CaseName, CaseReport, Check, Story } from "@startgap/study";

/** One current on the time-current curve; null where it never melts. */
export interface MeltingTime {
  readonly timesRating: number;
  readonly current_A: number;
  /** Fast edge: it may open from here on. */
  readonly melting_s: number | null;
  /** Slow edge: it has opened by here. */
  readonly clearing_s: number | null;
}

/** How long a case's greatest current could last before the fast edge melts. */
export interface Hold {
  readonly case: CaseName;
  readonly delay_s: number;
  readonly startingCurrent_A: number;
  /** When everything is up to speed; null when no case gets there. */
  readonly runningCurrent_A: number | null;
  /** Null when it never melts. */
  readonly cold_s: number | null;
  /** After the running current has flowed for long; null when it never melts, or nothing runs. */
  readonly hot_s: number | null;
}

export interface FuseSheet {
  readonly fuse: FuseParameters;
  readonly times: readonly MeltingTime[];
  readonly holds: readonly Hold[];
}

const MULTIPLES = [1.1, 1.35, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10];

/** Seconds, or null when it never melts or has no curve. */
function time_s(terms: MeltTerms | null, current_A: number, preload_A = 0): number | null {
  const t = terms === null ? Infinity : meltingTime_s(terms, current_A, preload_A);
  return Number.isFinite(t) ? t : null;
}

const meltingTime = (fuse: FuseParameters, timesRating: number): MeltingTime => {
  const current_A = timesRating * fuse.rating_A;
  return {
    timesRating,
    current_A,
    melting_s: time_s(fuse.melt, current_A),
    clearing_s: time_s(fuse.clearing, current_A),
  };
};

/** What flows through a part when a story ends. */
function finalCurrent_A(story: Story, part: string): number {
  const column = story.traces.columns.find((c) => c.part === part && c.quantity === "current");
  return column?.values.at(-1) ?? 0;
}

/** The story ended with every motor that was switched on up to speed. */
const settled = (report: CaseReport | undefined): boolean =>
  report?.motors.every((motor) => motor.closed_s === null || motor.runUp_s !== null) ?? false;

/** The greatest current that flows when all is up to speed; null when no case gets there. */
function runningCurrent_A(part: string, { report, stories }: Check): number | null {
  const calm = stories.filter((story) => settled(report.cases.find((c) => c.case === story.case)));
  return calm.length === 0 ? null : Math.max(...calm.map((story) => finalCurrent_A(story, part)));
}

function holds(fuse: FuseParameters, check: Check): Hold[] {
  const running_A = runningCurrent_A(fuse.name, check);
  return check.report.cases.flatMap((c) => {
    const startingCurrent_A = c.fuses.find((f) => f.part === fuse.name)?.peakCurrent_A;
    if (startingCurrent_A === undefined) return [];
    const cold_s = time_s(fuse.melt, startingCurrent_A);
    const hot_s = running_A === null ? null : time_s(fuse.melt, startingCurrent_A, running_A);
    const { case: of, delay_s } = c;
    return [{ case: of, delay_s, startingCurrent_A, runningCurrent_A: running_A, cold_s, hot_s }];
  });
}

/** A fuse's curve at round multiples of its rating, and against the starts of its own cabinet. */
export function fuseSheet(fuse: FuseParameters, check: Check): FuseSheet {
  return { fuse, times: MULTIPLES.map((m) => meltingTime(fuse, m)), holds: holds(fuse, check) };
}
