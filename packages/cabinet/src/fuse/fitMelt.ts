import { type MeltTerms, meltingTime_s } from "@startgap/circuit";
import type { Issue } from "../issue.ts";
import {
  type CurvePoint,
  orderedPoints,
  type PlacedPoint,
  type PointPlace,
  placeIn,
  pointText,
  say,
} from "./curvePoints.ts";
import { asMeltTerms, type Exponential, offset, type Row } from "./exponentials.ts";
import { pickTerms } from "./pickTerms.ts";

/** A fitted curve with how well it keeps the points it was given. */
export interface MeltFit {
  readonly terms: MeltTerms;
  /** Largest relative difference in current at a given time. */
  readonly currentError: number;
  /** Largest relative difference in time at a given current, where the curve is not flat (5 % above I_inf). */
  readonly timeError: number;
  /** Index, in the list as given, of the point with the largest difference in current. */
  readonly worstPoint: number;
}

/** What is known besides the points. */
export interface FitOptions {
  /** The current that just melts it after an unlimited time, when the points do not go that far. */
  readonly minimumFusing_A?: number;
  /** Place of the list in the file, for the messages: "points" when silent. */
  readonly path?: string;
  /** Place of each point, when it is not an item of that list. */
  readonly place?: PointPlace;
}

/** Beyond this in current no heat flow passes near the points and the curve is refused: a fuse's own tolerance. */
const REFUSED = 0.1;
/** Weight of the straight lines that join and prolong the points on the chart, against 1 for a point. */
const JOINING = 0.015;
/** Weight of a minimum fusing current that is known apart from the points. */
const TAIL = 0.1;
/** The last stretch is prolonged this much in time before the curve may level off. */
const PROLONGED = 3;
/** Nearer to I_inf than this, a hair of current is any amount of time. */
const FLAT = 1.05;

/**
 * Thermal terms whose melting times pass through the points of a time-current curve.
 *
 * At a constant current the element melts when sum a_k (I/I_inf)^2 (1 - e^(-t/tau_k)) = 1. With
 * c_k = a_k/I_inf^2 this is linear: I_j^2 sum c_k (1 - e^(-t_j/tau_k)) = 1, one equation a point, in which relative
 * errors weigh alike. Non-negative least squares on a logarithmic grid of time constants picks the terms; they
 * are merged, polished and thinned while the points are kept.
 *
 * Whatever the c_k >= 0, the time falls as the current rises and I^2 t never falls as the time grows, so the
 * curve cannot overshoot. Between distant points it leans to the straight line on log-log paper. Below the
 * shortest time it goes on at nearly constant I^2 t (adiabatic), no term being quicker than the points require.
 * Beyond the longest time it levels off, at `minimumFusing_A` when that is given.
 *
 * @param points [A, s] in any order: 2 to 500; see `orderedPoints` for the ranges and what is refused
 * @returns the fit, or the list of what is wrong
 * @throws RangeError when `minimumFusing_A` is given and is not above 0
 *
 * Limitation: 1/I^2 over time is always concave here, and smoothly so. A curve with a hollow, as some two-part
 * elements draw it, or with a sharp corner is met only as near as such a curve comes: `currentError` tells how
 * near, and beyond 10 % it is refused.
 *
 * Checked by packages/cabinet/test/fuseFit.test.ts.
 */
export function fitMelt(points: readonly CurvePoint[], options: FitOptions = {}): MeltFit | Issue[] {
  const { minimumFusing_A, path = "points", place = placeIn(path) } = options;
  if (minimumFusing_A !== undefined && !(minimumFusing_A > 0 && minimumFusing_A < Number.POSITIVE_INFINITY))
    throw new RangeError(`invalid minimumFusing_A: ${minimumFusing_A} (expected above 0)`);
  const placed = orderedPoints(points, path, place);
  if (!isPlaced(placed)) return placed;
  const given = placed.map(({ current_A, time_s }) => ({ current_A, time_s, weight: 1 }));
  const beyond =
    minimumFusing_A === undefined
      ? prolonged(placed)
      : [{ current_A: minimumFusing_A, time_s: Number.POSITIVE_INFINITY, weight: TAIL }];
  const rows = [...given, ...joining(placed), ...beyond];
  const terms = pickTerms(rows, placed[0].time_s, placed[placed.length - 1].time_s);
  const fit = judge(terms, placed);
  return fit.currentError <= REFUSED ? fit : [bendIssue(terms, placed, place)];
}

function isPlaced(value: PlacedPoint[] | Issue[]): value is PlacedPoint[] {
  return "index" in value[0];
}

/** Rows on the straight log-log line between given points that lie more than a factor 2 apart in time. */
function joining(placed: readonly PlacedPoint[]): Row[] {
  return placed.slice(1).flatMap((b, j) => {
    const parts = Math.floor(Math.log2(b.time_s / placed[j].time_s));
    return Array.from({ length: Math.max(0, parts - 1) }, (_, i) => onLine(placed[j], b, (i + 1) / parts));
  });
}

/** A row past the last point, on the line from the last point at most half as late. */
function prolonged(placed: readonly PlacedPoint[]): Row[] {
  const b = placed[placed.length - 1];
  const a = placed.filter(({ time_s }) => time_s <= b.time_s / 2).at(-1) ?? placed[0];
  if (!(b.time_s > a.time_s) || b.current_A > a.current_A) return [];
  return [onLine(a, b, 1 + Math.log(PROLONGED) / Math.log(b.time_s / a.time_s))];
}

function onLine(a: PlacedPoint, b: PlacedPoint, u: number): Row {
  return {
    current_A: a.current_A * (b.current_A / a.current_A) ** u,
    time_s: a.time_s * (b.time_s / a.time_s) ** u,
    weight: JOINING,
  };
}

function judge(terms: readonly Exponential[], placed: readonly PlacedPoint[]): MeltFit {
  const melt = asMeltTerms(terms);
  const offsets = placed.map((point) => Math.abs(Math.expm1(offset(terms, point))));
  const currentError = Math.max(...offsets);
  const times = placed
    .filter(({ current_A }) => current_A > FLAT * melt.minimumFusing_A)
    .map(({ current_A, time_s }) => Math.abs(meltingTime_s(melt, current_A) / time_s - 1));
  return {
    terms: melt,
    currentError,
    timeError: Math.max(0, ...times),
    worstPoint: placed[offsets.indexOf(currentError)].index,
  };
}

/** Names the neighbours between which the fit goes furthest from one side of the points to the other. */
function bendIssue(terms: readonly Exponential[], placed: readonly PlacedPoint[], place: PointPlace): Issue {
  const offsets = placed.map((point) => offset(terms, point));
  let j = 1;
  for (let n = 2; n < placed.length; n++)
    if (Math.abs(offsets[n] - offsets[n - 1]) > Math.abs(offsets[j] - offsets[j - 1])) j = n;
  const [a, b] = [placed[j - 1], placed[j]];
  const off = Math.max(...offsets.map(Math.abs));
  return {
    path: place(b.index),
    expected: `a bend that heat flow can follow after ${pointText(a)} (${place(a.index)}); the nearest such curve is ${say(100 * off)} % off in current`,
    received: pointText(b),
  };
}
