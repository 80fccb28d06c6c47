import type { Issue } from "../issue.ts";

/** One point of a time-current curve: rms current in A, and the time in s for which it must flow. */
export type CurvePoint = readonly [current_A: number, time_s: number];

/** A point with its place in the list as it was given. */
export interface PlacedPoint {
  readonly current_A: number;
  readonly time_s: number;
  readonly index: number;
}

/** Where a point, or one of its two values, stands in what the builder wrote. */
export type PointPlace = (index: number, value?: "current" | "time") => string;

/** Places as "points[3]" and "points[3][0]". */
export function placeIn(path: string): PointPlace {
  const inner = { current: "[0]", time: "[1]" };
  return (index, value) => `${path}[${index}]${value === undefined ? "" : inner[value]}`;
}

const FEWEST_POINTS = 2;
export const MOST_POINTS = 500;
const CURRENT_A = { least: 0.001, most: 1e6 };
const TIME_S = { least: 1e-4, most: 1e6 };

/** Reading a log-log chart by eye is good to about this much in current; falls within it are not held against a curve. */
const READING_ERROR = 0.02;

/**
 * The points in order of time, or everything that is wrong with them.
 *
 * A melting curve must fall: the longer the time, the smaller the current. And I^2 t must not fall as time
 * grows: heat only leaks away from the element, so a longer time never needs less heat. Both are allowed the
 * reading error of a chart. What breaks them is named by its two points.
 *
 * @param points any order, 2 to 500 of them; 0.001 to 1e6 A, 0.0001 to 1e6 s
 * @param path place of the list in the file, for the messages
 * @param place place of one point, or of its current or time
 */
export function orderedPoints(
  points: readonly CurvePoint[],
  path: string,
  place: PointPlace = placeIn(path),
): PlacedPoint[] | Issue[] {
  if (points.length < FEWEST_POINTS || points.length > MOST_POINTS)
    return [
      {
        path,
        expected: `${FEWEST_POINTS} to ${MOST_POINTS} points of current and time`,
        received: `${points.length} point${points.length === 1 ? "" : "s"}`,
      },
    ];
  const bad = points.flatMap((point, index) => rangeIssues(point, index, place));
  if (bad.length > 0) return bad;
  const placed = points.map(([current_A, time_s], index) => ({ current_A, time_s, index }));
  placed.sort((a, b) => a.time_s - b.time_s || b.current_A - a.current_A);
  if (placed[0].time_s === placed[placed.length - 1].time_s)
    return [{ path, expected: "points at two times or more", received: `all at ${say(placed[0].time_s)} s` }];
  const broken = shapeIssues(placed, place);
  return broken.length > 0 ? broken : placed;
}

function rangeIssues([current_A, time_s]: CurvePoint, index: number, place: PointPlace): Issue[] {
  const issues: Issue[] = [];
  if (!(current_A >= CURRENT_A.least && current_A <= CURRENT_A.most))
    issues.push({
      path: place(index, "current"),
      expected: `a current of ${CURRENT_A.least} A to ${CURRENT_A.most} A, as "60 A"`,
      received: `${current_A} A`,
    });
  if (!(time_s >= TIME_S.least && time_s <= TIME_S.most))
    issues.push({
      path: place(index, "time"),
      expected: `a time of ${TIME_S.least} s to ${TIME_S.most} s, as "25 s"`,
      received: `${time_s} s`,
    });
  return issues;
}

/** Each point against the lowest current and the highest I^2 t of the shorter times. */
function shapeIssues(placed: readonly PlacedPoint[], place: PointPlace): Issue[] {
  const issues: Issue[] = [];
  let lowest = placed[0];
  let hottest = placed[0];
  for (const point of placed.slice(1)) {
    if (point.current_A > lowest.current_A * (1 + READING_ERROR))
      issues.push({
        path: place(point.index),
        expected: `a current that falls as the time grows: at most ${say(lowest.current_A)} A, that of ${say(lowest.time_s)} s (${place(lowest.index)})`,
        received: pointText(point),
      });
    else if (i2t(point) < i2t(hottest) * (1 - READING_ERROR) ** 2)
      issues.push({
        path: place(point.index),
        expected: `an I2t that does not fall as the time grows: at least ${say(i2t(hottest))} A2s, that of ${pointText(hottest)} (${place(hottest.index)})`,
        received: `${pointText(point)}, which is ${say(i2t(point))} A2s`,
      });
    if (point.current_A < lowest.current_A) lowest = point;
    if (i2t(point) > i2t(hottest)) hottest = point;
  }
  return issues;
}

function i2t(point: PlacedPoint): number {
  return point.current_A ** 2 * point.time_s;
}

export function pointText(point: PlacedPoint): string {
  return `${say(point.current_A)} A for ${say(point.time_s)} s`;
}

/** Three digits, without an exponent for everyday sizes. */
export function say(value: number): string {
  return String(Number(value.toPrecision(3)));
}
