import type { DipEdges, DipEnd, DipMap, DipOutcome } from "@startgap/study";

const LEFT = [0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9];
const LENGTHS_s = [0.01, 0.02, 0.03, 0.05, 0.07, 0.1, 0.15, 0.2, 0.3, 0.5, 0.7, 1, 2, 5];

const outcomeOf = (left: number, length_s: number, end: DipEnd): DipOutcome => ({
  left,
  length_s,
  end,
  verdict: end === "together" ? "caution" : end === "stays off" || end === "chatters" ? "fail" : "pass",
  letGo: [],
  reset: [],
  lockedOut: [],
  fellBack: [],
  loaded: end === "together" ? ["pump 1", "pump 2"] : [],
  stalled: [],
  melted: [],
  chatters: [],
  back_s: [],
});

/** A map as edges give it. */
export function dipMapOf(
  edges: readonly DipEdges[],
  left: readonly number[] = LEFT,
  length_s: readonly number[] = LENGTHS_s,
): DipMap {
  const endAt = (of: DipEdges, t: number): DipEnd =>
    [of.shortest, ...of.changes.map(({ after }) => after)][of.changes.filter(({ at_s }) => at_s <= t).length];
  const rowAt = (v: number): DipEdges => edges.find((row) => row.left >= v - 1e-9) ?? edges[edges.length - 1];
  const outcomes = left.map((v) => length_s.map((t) => outcomeOf(v, t, endAt(rowAt(v), t))));
  return { startgap: "dips 1", title: "invented", left, length_s, outcomes, edges, delay_s: 6, changes: [] };
}

export const row = (left: number, ...steps: (DipEnd | number)[]): DipEdges => ({
  left,
  shortest: steps[0] as DipEnd,
  changes: steps.flatMap((step, i) =>
    typeof step === "number"
      ? [{ at_s: step, before: steps[i - 1] as DipEnd, after: steps[i + 1] as DipEnd }]
      : [],
  ),
});

/** Invented: contactors let go below three quarters, a relay forgets, weak motors stall in shallow, long dips. */
export const exampleDips = (): DipMap => {
  const deep = [0, 0.1, 0.2, 0.3, 0.4, 0.5].map((v) => row(v, "holds", 0.015, "together", 0.08, "staggered"));
  const rising = [0.61, 0.65, 0.7, 0.72, 0.74].map((v, k) =>
    row(v, "holds", 0.015 * 1.6 ** k, "together", 0.095 * 1.4 ** k, "staggered", 1.1 * 1.2 ** k, "chatters"),
  );
  return dipMapOf([
    ...deep,
    row(0.6, "holds", 0.015, "together", 0.095, "staggered", 1, "chatters"),
    ...rising,
    row(0.75, "holds", 0.9, "alone"),
    row(0.8, "holds", 1.4, "alone"),
    row(0.82, "holds"),
    row(0.9, "holds"),
  ]);
};
