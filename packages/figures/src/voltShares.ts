/** The lost volts of every case's worst moment, lined up part by part. */

import type { CaseName, CaseReport, WorstMoment } from "@startgap/study";

export interface ShareColumn {
  readonly case: CaseName;
  readonly worst: WorstMoment;
  /** Volts lost in every part of `parts`, in its order; negative where the voltage rose. */
  readonly lost_V: readonly number[];
}

export interface VoltShares {
  /** From the supply on; parts that never take a tenth of a volt are one, last, called "all else". */
  readonly parts: readonly string[];
  readonly columns: readonly ShareColumn[];
}

const least_V = 0.1;
const mostParts = 9;

export function voltShares(cases: readonly CaseReport[]): VoltShares {
  const judged = cases.flatMap(({ case: name, worst }) => (worst === null ? [] : [{ case: name, worst }]));
  const sums = judged.map(({ worst }) => byPart(worst));
  const all = [...new Set(sums.flatMap((sum) => [...sum.keys()]))];
  const most = (part: string) => Math.max(...sums.map((sum) => Math.abs(sum.get(part) ?? 0)));
  const ranked = all.filter((part) => most(part) >= least_V).sort((a, b) => most(b) - most(a));
  const kept = new Set(ranked.slice(0, mostParts));
  const parts = all.filter((part) => kept.has(part));
  const rest = all.filter((part) => !kept.has(part));
  const gathers = rest.reduce((sum, part) => sum + most(part), 0) >= least_V;
  const columns = judged.map(({ case: name, worst }, i) => {
    const own = parts.map((part) => sums[i].get(part) ?? 0);
    const else_V = rest.reduce((sum, part) => sum + (sums[i].get(part) ?? 0), 0);
    return { case: name, worst, lost_V: gathers ? [...own, else_V] : own };
  });
  return { parts: gathers ? [...parts, "all else"] : parts, columns };
}

function byPart({ shares }: WorstMoment): Map<string, number> {
  const sums = new Map<string, number>();
  for (const { part, lost_V } of shares) sums.set(part, (sums.get(part) ?? 0) + lost_V);
  return sums;
}
