/** The regions of a dip map as outlines, and the lines between them. */

import type { DipEdges, DipEnd } from "@startgap/study";
import type { Box } from "./axes.ts";
import { path } from "./path.ts";

export interface DipScales {
  readonly box: Box;
  /** Seconds to px. */
  readonly x: (length_s: number) => number;
  /** Fraction of nominal that is left to px. */
  readonly y: (left: number) => number;
}

/** One outline of a region. */
export interface DipRegion {
  readonly end: DipEnd;
  readonly d: string;
}

const endsOf = ({ shortest, changes }: DipEdges): DipEnd[] => [
  shortest,
  ...changes.map(({ after }) => after),
];

/** Rows through which the same ends follow each other, and how high each stretch of them reaches, px. */
interface Chain {
  readonly ends: readonly DipEnd[];
  readonly rows: readonly DipEdges[];
  readonly bottom: number;
  readonly top: number;
}

/** Rows in chains: where the ends change from one depth to the next, halfway between both. */
function chainsOf(edges: readonly DipEdges[], { box, y }: DipScales): Chain[] {
  const groups: DipEdges[][] = [];
  for (const row of edges) {
    const group = groups[groups.length - 1];
    const alike = group !== undefined && endsOf(group[0]).join() === endsOf(row).join();
    if (alike) group.push(row);
    else groups.push([row]);
  }
  // Whole pixels: outlines that meet between two leave a seam.
  const halfway = (a: DipEdges[], b: DipEdges[]): number =>
    Math.round((y(a[a.length - 1].left) + y(b[0].left)) / 2);
  return groups.map((rows, i) => ({
    ends: endsOf(rows[0]),
    rows,
    bottom: i === 0 ? box.bottom : halfway(groups[i - 1], rows),
    top: i === groups.length - 1 ? box.top : halfway(rows, groups[i + 1]),
  }));
}

type Point = readonly [x: number, y: number];

/** The line on the right of a chain's k-th stretch, from the bottom up. */
function edgeLine({ rows, bottom, top, ends }: Chain, k: number, { box, x, y }: DipScales): Point[] {
  if (k < 0 || k >= ends.length - 1) {
    const at = k < 0 ? box.left : box.right;
    return [
      [at, bottom],
      [at, top],
    ];
  }
  const inner = rows.map(({ left, changes }): Point => [x(changes[k].at_s), y(left)]);
  const within = inner.filter(([, at]) => at < bottom && at > top);
  return [[inner[0][0], bottom], ...within, [inner[inner.length - 1][0], top]];
}

const drawn = (points: readonly Point[]): string =>
  points.map(([x, y], i) => (i === 0 ? path`M${x},${y}` : path`L${x},${y}`)).join("");

/** Every region's outlines, chain by chain. */
export function dipRegions(edges: readonly DipEdges[], scales: DipScales): DipRegion[] {
  return chainsOf(edges, scales).flatMap((chain) =>
    chain.ends.map((end, k) => {
      const [before, after] = [edgeLine(chain, k - 1, scales), edgeLine(chain, k, scales)];
      return { end, d: `${drawn([...before, ...[...after].reverse()])}Z` };
    }),
  );
}

/** Every line between two ends: along the lengths at which they change, and across where the depth changes them. */
export function dipLines(edges: readonly DipEdges[], scales: DipScales): string {
  const chains = chainsOf(edges, scales);
  const along = chains.flatMap((chain) =>
    chain.ends.slice(1).map((_, k) => drawn(edgeLine(chain, k, scales))),
  );
  const across = chains.slice(1).map((chain, i) => crossing(chains[i], chain, scales));
  return [...along, ...across].join("");
}

/** Where two chains meet: a line wherever the one below has another end than the one above. */
function crossing(below: Chain, above: Chain, { box, x }: DipScales): string {
  const stepsOf = (chain: Chain, row: DipEdges): number[] =>
    chain.ends.slice(1).map((_, k) => x(row.changes[k].at_s));
  const low = stepsOf(below, below.rows[below.rows.length - 1]);
  const high = stepsOf(above, above.rows[0]);
  const stops = [box.left, ...[...low, ...high].sort((a, b) => a - b), box.right];
  const endAt = (ends: readonly DipEnd[], steps: readonly number[], at: number): DipEnd =>
    ends[steps.filter((step) => step <= at).length];
  return stops
    .slice(1)
    .map((stop, i) => {
      const middle = (stops[i] + stop) / 2;
      const differs = endAt(below.ends, low, middle) !== endAt(above.ends, high, middle);
      return differs ? path`M${stops[i]},${below.top}H${stop}` : "";
    })
    .join("");
}

/** The end at a point of the plot, by the row that is nearest in depth: for words that must stay within a region. */
export function endAtPoint(edges: readonly DipEdges[], scales: DipScales, at: Point): DipEnd {
  const distance = (row: DipEdges): number => Math.abs(scales.y(row.left) - at[1]);
  const row = edges.reduce((best, one) => (distance(one) < distance(best) ? one : best));
  return endsOf(row)[row.changes.filter(({ at_s }) => scales.x(at_s) <= at[0]).length];
}
