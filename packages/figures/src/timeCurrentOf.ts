/** What the time-current plot of one fuse of a checked cabinet shows. */

import { type FuseParameters, type MeltTerms, meltingCurrent_A } from "@startgap/circuit";
import type { Check, Story } from "@startgap/study";
import { type CurvePoint, exceedance } from "./exceedance.ts";
import type { TimeCurrentInput } from "./timeCurrent.ts";

/** Ten points a decade, from 10 ms to 10 000 s: the paper that fuse makers print their curves on. */
const TIMES_s = Array.from({ length: 61 }, (_, k) => 0.01 * 10 ** (k / 10));

const edgeOf = (terms: MeltTerms): CurvePoint[] =>
  TIMES_s.map((time_s) => ({ time_s, current_A: meltingCurrent_A(terms, time_s) }));

const currentIn = (story: Story, part: string): Float64Array | undefined =>
  story.traces.columns.find((column) => column.part === part && column.quantity === "current")?.values;

/** What a fuse carries at the end of a story in which a motor hums without turning; null when there is none. */
function stall_A(part: string, { report, stories }: Check): number | null {
  const stalled = stories.filter((story) =>
    report.cases.some(
      (one) => one.case === story.case && one.motors.some((motor) => motor.outcome === "stalled"),
    ),
  );
  const finals = stalled.map((story) => currentIn(story, part)?.at(-1) ?? 0);
  return finals.length === 0 ? null : Math.max(...finals);
}

/** A fuse's band, and the starts of its own cabinet to lay on it; null for a fuse without a curve. */
export function timeCurrentOf(fuse: FuseParameters, check: Check): TimeCurrentInput | null {
  if (fuse.melt === null) return null;
  return {
    part: fuse.name,
    melt: edgeOf(fuse.melt),
    clearing: fuse.clearing && edgeOf(fuse.clearing),
    starts: check.stories.flatMap((story) => {
      const current = currentIn(story, fuse.name);
      return current === undefined
        ? []
        : [{ case: story.case, points: exceedance(story.traces.time_s, current) }];
    }),
    stall_A: stall_A(fuse.name, check),
  };
}
