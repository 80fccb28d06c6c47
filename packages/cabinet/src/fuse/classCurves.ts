import type { CurvePoint } from "./curvePoints.ts";
import { NORTH_AMERICAN, type NorthAmericanClass, type NorthAmericanName, openingTimes } from "./gates.ts";
import { conventionalTime_s, GG_FUSES, GG_HOLDS, GG_SHORT_S, type GgRow } from "./gatesIec.ts";

/** One curve of a band: points [A, s], and the current that it carries for ever. */
export interface ClassCurve {
  readonly points: readonly CurvePoint[];
  readonly minimumFusing_A: number;
}

/** Fast edge, the middle, slow edge. */
export interface ClassBand {
  readonly fast: ClassCurve;
  readonly middle: ClassCurve;
  readonly slow: ClassCurve;
}

/** The edges keep this far inside the gates, so that the fit of the curve cannot step over them. */
const INSIDE = 0.04;

type Table = readonly (readonly [multiple: number, time_s: number])[];
type Tables = Readonly<Record<keyof ClassBand, Table>>;

/** A table of multiples of the rating and seconds as a curve of one rating. */
function ofRating(rating_A: number, table: Table, minimumFusing: number): ClassCurve {
  return {
    points: table.map(([multiple, time_s]) => [multiple * rating_A, time_s]),
    minimumFusing_A: minimumFusing * rating_A,
  };
}

/**
 * The band of a North American class: the gates where the standard speaks, assumed curves between them.
 *
 * Assumed middle curves, common practice, no source (from memory). Time delay stated at 200 %: 200 % 30 s,
 * 400 % 2.5 s, 600 % 0.5 s, a band of 1.6 times to either side. Time delay stated at 500 %: 500 % 12 s,
 * 600 % 7 s, 800 % 2 s, 1000 % 0.5 s, moved as little as heat flow asks: a fuse that lasts 10 s at 500 % needs at
 * least 62.5 s at 200 %, and the standard gives it 120 s, so there the band is narrow. Fast: a wide band
 * that holds current-limiting and one-time elements alike.
 */
export function northAmericanBand(name: NorthAmericanName, rating_A: number, timeDelay: boolean): ClassBand {
  const { carries, delay }: NorthAmericanClass = NORTH_AMERICAN[name];
  const { at200_s, at135_s } = openingTimes(rating_A);
  const opening: Table = [
    [2, at200_s * (1 - INSIDE)],
    [1.35, at135_s * (1 - INSIDE)],
  ];
  const least_s = delay.least_s(rating_A);
  const tables = timeDelay
    ? delay.multiple === 2
      ? delayAt200(least_s, opening)
      : delayAt500(least_s, at200_s / 120)
    : noDelay(opening);
  return {
    fast: ofRating(rating_A, tables.fast, carries + 0.03),
    middle: ofRating(rating_A, tables.middle, 1.2),
    slow: ofRating(rating_A, tables.slow, 1.31),
  };
}

/** All times but those to open go with the least time at 200 %, 12 s for all but the smallest. */
function delayAt200(least_s: number, opening: Table): Tables {
  const wide = 1.6;
  const delayed = least_s / 12;
  return {
    fast: [
      [6, (0.5 / wide) * delayed],
      [4, (2.5 / wide) * delayed],
      [2, least_s * (1 + INSIDE)],
    ],
    middle: [
      [6, 0.5 * delayed],
      [4, 2.5 * delayed],
      [2, 30 * delayed],
    ],
    slow: [[6, 0.5 * wide * delayed], [4, 2.5 * wide * delayed], ...opening],
  };
}

/** `late` stretches the slow edge: its time to open at 200 % over the 120 s of the smallest. */
function delayAt500(least_s: number, late: number): Tables {
  return {
    fast: [
      [10, 0.045 * least_s],
      [8, 0.206 * least_s],
      [6, 0.62 * least_s],
      [5, least_s * (1 + INSIDE)],
      [2, 9.64 * least_s],
    ],
    middle: [
      [10, 0.8],
      [8, 2.67],
      [6, 6.98],
      [5, 11.4],
      [2, 104],
    ],
    slow: [
      [10, 1.48 * late],
      [8, 3.54 * late],
      [6, 8.1 * late],
      [5, 12.8 * late],
      [2, 120 * (1 - INSIDE) * late],
    ],
  };
}

function noDelay(opening: Table): Tables {
  return {
    fast: [
      [10, 0.012],
      [5, 0.08],
      [3, 0.8],
      [2, 8],
    ],
    middle: [
      [10, 0.03],
      [5, 0.22],
      [3, 2.2],
      [2, 30],
    ],
    slow: [[10, 0.08], [5, 0.6], [3, 6], ...opening],
  };
}

/** Currents of the gG edges keep this far inside the gates. */
const INSIDE_CURRENT = 0.015;

/** The band of gG: its own gates, with the middle halfway between them on log-log paper. */
export function ggBand(row: GgRow): ClassBand {
  const hour_s = conventionalTime_s(row.rating_A);
  const shortest = (i2t_A2s: number) => Math.sqrt(i2t_A2s / GG_SHORT_S);
  const fast: CurvePoint[] = [
    [shortest(row.least_A2s), GG_SHORT_S],
    [row.least100ms_A, 0.1],
    [row.least10s_A, 10],
  ];
  const slow: CurvePoint[] = [
    [shortest(row.most_A2s), GG_SHORT_S],
    [row.most100ms_A, 0.1],
    [row.most5s_A, 5],
    [GG_FUSES * row.rating_A, hour_s],
  ];
  const times = (points: readonly CurvePoint[], factor: number) =>
    points.map(([current_A, time_s]): CurvePoint => [current_A * factor, time_s]);
  const holds_A = GG_HOLDS * row.rating_A;
  const fuses_A = GG_FUSES * row.rating_A;
  return {
    fast: { points: times(fast, 1 + INSIDE_CURRENT), minimumFusing_A: 1.02 * holds_A },
    middle: {
      points: fast.map(([a, t], n) => [Math.sqrt(a * slow[n][0]), Math.sqrt(t * slow[n][1])]),
      minimumFusing_A: Math.sqrt(holds_A * fuses_A),
    },
    slow: { points: times(slow, 1 - INSIDE_CURRENT), minimumFusing_A: 0.95 * fuses_A },
  };
}

/** The band of aM: its own gates; the currents carried for ever are assumed, common practice, no source. */
export function amBand(rating_A: number): ClassBand {
  const fast: Table = [
    [10, 0.2 * (1 + INSIDE)],
    [8, 0.5 * (1 + INSIDE)],
    [4, 60 * (1 + INSIDE)],
  ];
  const slow: Table = [
    [19, 0.1 * (1 - INSIDE)],
    [12.5, 0.5 * (1 - INSIDE)],
    [6.3, 60 * (1 - INSIDE)],
  ];
  const middle: Table = [
    [14, 0.13],
    [10, 0.5],
    [5, 60],
  ];
  return {
    fast: ofRating(rating_A, fast, 3.5),
    middle: ofRating(rating_A, middle, 4.4),
    slow: ofRating(rating_A, slow, 5.5),
  };
}
