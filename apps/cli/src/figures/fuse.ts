import { type FuseParameters, type MeltTerms, meltingCurrent_A } from "@startgap/circuit";
import { type CurvePoint, exceedance, type TimeCurrentInput } from "@startgap/figures";
import type { Check, Story } from "@startgap/study";

/** Ten points a decade, from 10 ms to 10 000 s: the paper that fuse makers print their curves on. */
const TIMES_s = Array.from({ length: 61 }, (_, k) => 0.01 * 10 ** (k / 10));

const curve = (terms: MeltTerms): CurvePoint[] =>
  TIMES_s.map((time_s) => ({ time_s, current_A: meltingCurrent_A(terms, time_s) }));

const currentIn = (story: Story, part: string): Float64Array | undefined =>
  story.traces.columns.find((c) => c.part === part && c.quantity === "current")?.values;

/** What a fuse carries while a motor hums without turning; null when none does. */
function stall_A(part: string, { report, stories }: Check): number | null {
  const stalled = stories.filter((story) =>
    report.cases.some((c) => c.case === story.case && c.motors.some((motor) => motor.outcome === "stalled")),
  );
  const finals = stalled.map((story) => currentIn(story, part)?.at(-1) ?? 0);
  return finals.length === 0 ? null : Math.max(...finals);
}

/** A fuse's band, and the starts of its own cabinet to lay on it; null for a fuse without a curve. */
export function timeCurrentInput(fuse: FuseParameters, check: Check): TimeCurrentInput | null {
  if (fuse.melt === null) return null;
  return {
    part: fuse.name,
    melt: curve(fuse.melt),
    clearing: fuse.clearing && curve(fuse.clearing),
    starts: check.stories.flatMap((story) => {
      const current = currentIn(story, fuse.name);
      return current === undefined
        ? []
        : [{ case: story.case, points: exceedance(story.traces.time_s, current) }];
    }),
    stall_A: stall_A(fuse.name, check),
  };
}
