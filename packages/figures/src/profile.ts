/** The room that a curve takes up, slice by slice: what words beside it must keep clear of. */

import type { Box } from "./axes.ts";
import type { Stretch } from "./polyline.ts";

/** For every slice of the box, the span of y that a curve fills there; NaN where there is no curve. */
export interface Profile {
  readonly low: Float64Array;
  readonly high: Float64Array;
}

/** Width of a slice, px. */
export const slice = 5;

/** The profile of a curve over a box. Checked by test/labels.test.ts. */
export function profileOf(stretches: readonly Stretch[], box: Box): Profile {
  const count = Math.max(1, Math.ceil((box.right - box.left) / slice));
  const low = new Float64Array(count).fill(Number.NaN);
  const high = new Float64Array(count).fill(Number.NaN);
  for (const points of stretches)
    for (let k = 0; k + 3 < points.length; k += 2) {
      const from = Math.floor((points[k] - box.left) / slice);
      const to = Math.min(Math.floor((points[k + 2] - box.left) / slice), count - 1);
      for (let i = Math.max(from, 0); i <= to; i += 1) widen(low, high, i, points, k, box.left);
    }
  return { low, high };
}

/** Let slice `i` hold the piece of the segment at `k` that crosses it. */
function widen(
  low: Float64Array,
  high: Float64Array,
  i: number,
  points: Stretch,
  k: number,
  left: number,
): void {
  const [x0, y0, x1, y1] = [points[k], points[k + 1], points[k + 2], points[k + 3]];
  const from = Math.max(x0, left + i * slice);
  const to = Math.min(x1, left + (i + 1) * slice);
  const steep = x1 - x0 < 1e-9;
  const a = steep ? y0 : y0 + ((y1 - y0) * (from - x0)) / (x1 - x0);
  const b = steep ? y1 : y0 + ((y1 - y0) * (to - x0)) / (x1 - x0);
  low[i] = Math.min(a, b, Number.isNaN(low[i]) ? a : low[i]);
  high[i] = Math.max(a, b, Number.isNaN(high[i]) ? a : high[i]);
}

/** Lowest (sign -1) or highest (sign 1) of some slices; NaN when the curve is missing in any. */
export function extreme(values: Float64Array, i: number, slices: number, sign: number): number {
  let out = Number.NEGATIVE_INFINITY;
  for (let k = i; k < i + slices; k += 1) {
    if (Number.isNaN(values[k])) return Number.NaN;
    out = Math.max(out, sign * values[k]);
  }
  return sign * out;
}

/**
 * Whether a place is clear of every curve by some room.
 *
 * @param left  where the profiles begin, px
 * @param room  px
 */
export function isClear(profiles: readonly Profile[], left: number, place: Box, room: number): boolean {
  const from = Math.max(0, Math.floor((place.left - left) / slice + 1e-9));
  const to = Math.ceil((place.right - left) / slice - 1e-9);
  return profiles.every(({ low, high }) => {
    for (let k = from; k <= to && k < low.length; k += 1)
      if (high[k] > place.top - room && low[k] < place.bottom + room) return false;
    return true;
  });
}
