/** Columns of numbers as pixel points: cut to the axis, broken at gaps, thinned where points exceed pixels. */

import { bisectLeft, bisectRight } from "d3";

export type Scale = (value: number) => number;

/** One unbroken stretch of a curve in pixels, x and y alternating. */
export type Stretch = Float64Array;

export interface Column {
  readonly time_s: ArrayLike<number>;
  readonly values: ArrayLike<number>;
  /** First sample that counts. */
  readonly first: number;
}

/**
 * The pixel stretches of a column between two times.
 *
 * Values that are not finite break the curve. A stretch with more than two points to a pixel keeps, in every pixel
 * column, its first, lowest, highest and last point, so that no peak is lost. Checked by test/polyline.test.ts.
 *
 * @param from_s  start of the axis, `to_s` its end; the curve is cut there by interpolation
 */
export function polyline(column: Column, from_s: number, to_s: number, x: Scale, y: Scale): Stretch[] {
  const stretches: Stretch[] = [];
  const { start, end } = within(column, from_s, to_s);
  let open = start;
  for (let i = start; i <= end; i += 1) {
    if (i < end && Number.isFinite(column.values[i])) continue;
    if (i > open) stretches.push(thinned(pixels(column, open, i, from_s, to_s, x, y)));
    open = i + 1;
  }
  return stretches;
}

/** Samples from the last at or before the start of the axis to the first at or after its end. */
function within(column: Column, from_s: number, to_s: number): { start: number; end: number } {
  const times = column.time_s as number[];
  const start = Math.max(column.first, bisectRight(times, from_s) - 1);
  return { start, end: Math.min(times.length, bisectLeft(times, to_s) + 1) };
}

function pixels(
  column: Column,
  start: number,
  end: number,
  from_s: number,
  to_s: number,
  x: Scale,
  y: Scale,
): Stretch {
  const { time_s, values } = column;
  const points = new Float64Array(2 * (end - start));
  for (let i = start, k = 0; i < end; i += 1, k += 2) {
    const t = Math.min(Math.max(time_s[i], from_s), to_s);
    points[k] = x(t);
    points[k + 1] = y(t === time_s[i] ? values[i] : atEdge(column, i, t, start, end));
  }
  return points;
}

function atEdge({ time_s, values }: Column, i: number, t: number, start: number, end: number): number {
  const other = t > time_s[i] ? Math.min(i + 1, end - 1) : Math.max(i - 1, start);
  const gap = time_s[other] - time_s[i];
  return gap === 0 ? values[i] : values[i] + ((values[other] - values[i]) * (t - time_s[i])) / gap;
}

const pointsToPixel = 2;

/** Per pixel column the first, lowest, highest and last point, when points exceed pixels. */
export function thinned(points: Stretch): Stretch {
  const count = points.length / 2;
  if (count < 3 || count <= pointsToPixel * (points[points.length - 2] - points[0] + 1)) return points;
  const kept: number[] = [];
  for (let i = 0; i < count; ) i = keepColumn(points, i, kept);
  return Float64Array.from(kept);
}

/** Keep what one pixel column needs; returns the first point of the next. */
function keepColumn(points: Stretch, start: number, kept: number[]): number {
  const column = Math.floor(points[2 * start]);
  let [low, high, end] = [start, start, start];
  for (; end < points.length / 2 && Math.floor(points[2 * end]) === column; end += 1) {
    if (points[2 * end + 1] < points[2 * low + 1]) low = end;
    if (points[2 * end + 1] > points[2 * high + 1]) high = end;
  }
  let last = -1;
  for (const i of [start, Math.min(low, high), Math.max(low, high), end - 1]) {
    if (i > last) kept.push(points[2 * i], points[2 * i + 1]);
    last = Math.max(last, i);
  }
  return end;
}

/** Path data of stretches, to the tenth of a pixel; points in a level run are dropped. */
export function pathOf(stretches: readonly Stretch[]): string {
  let d = "";
  for (const points of stretches) d += stretchPath(points);
  return d;
}

function stretchPath(points: Stretch): string {
  let d = "";
  let [lastX, lastY] = [Number.NaN, Number.NaN];
  let level = false;
  for (let k = 0; k < points.length; k += 2) {
    const x = Math.round(points[k] * 10) / 10;
    const y = Math.round(points[k + 1] * 10) / 10;
    if (k > 0 && x === lastX && y === lastY) continue;
    if (level && y !== lastY) d += `L${lastX},${lastY}`;
    level = k > 0 && y === lastY;
    if (!level) d += `${k === 0 ? "M" : "L"}${x},${y}`;
    [lastX, lastY] = [x, y];
  }
  return level ? `${d}L${lastX},${lastY}` : d;
}
