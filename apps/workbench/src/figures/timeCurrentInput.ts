import { type FuseParameters, type MeltTerms, meltingCurrent_A } from "@startgap/circuit";
import { type CurvePoint, exceedance, type TimeCurrentInput } from "@startgap/figures";
import type { Check, Story } from "@startgap/study";

/** From a cycle to almost three hours, eight points a decade. */
const TIMES_s = Array.from({ length: 49 }, (_, k) => 0.01 * 10 ** (k / 8));

const edgeOf = (terms: MeltTerms): CurvePoint[] =>
  TIMES_s.map((time_s) => ({ time_s, current_A: meltingCurrent_A(terms, time_s) })).reverse();

/** A fuse's band with every case laid on it; null for a fuse without a curve. */
export function timeCurrentInput(fuse: FuseParameters, check: Check): TimeCurrentInput | null {
  if (fuse.melt === null) return null;
  const starts = check.stories.flatMap((story) => {
    const column = currentOf(story, fuse.name);
    return column === null ? [] : [{ case: story.case, points: exceedance(story.traces.time_s, column) }];
  });
  return {
    part: fuse.name,
    melt: edgeOf(fuse.melt),
    clearing: fuse.clearing === null ? null : edgeOf(fuse.clearing),
    starts,
    stall_A: null,
  };
}

const currentOf = (story: Story, part: string): Float64Array | null =>
  story.traces.columns.find((column) => column.quantity === "current" && column.part === part)?.values ??
  null;
