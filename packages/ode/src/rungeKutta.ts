import { ERROR_3, ERROR_5, EXTENSION, MOMENTS, type Row, STAGES } from "./dop853.ts";
import { doubles } from "./doubles.ts";
import type { March, Pace, Rates, Visit } from "./march.ts";
import type { Solution } from "./watch.ts";

/** Index of the stage at the end of the step: its rate is the first of the next. */
const END = 12;
/** How much shorter or longer the next step may be, and what it keeps in hand. */
const SHORTEST = 1 / 3;
const LONGEST = 6;
const IN_HAND = 0.9;

/** Four terms of a row; a row is summed four at a time. */
interface Quad {
  readonly at: readonly number[];
  readonly by: readonly number[];
}

const quadsOf = (row: Row): readonly Quad[] =>
  Array.from({ length: Math.ceil(row.length / 4) }, (_, q) => {
    const terms = Array.from({ length: 4 }, (__, j) => row[4 * q + j] ?? ([row[0][0], 0] as const));
    return { at: terms.map(([stage]) => stage), by: terms.map(([, by]) => by) };
  });

const ROWS = STAGES.map(quadsOf);
const FIFTH = quadsOf(ERROR_5);
const THIRD = quadsOf(ERROR_3);
const HIGHEST = EXTENSION.map(quadsOf);

/**
 * Explicit Runge-Kutta of order 8 from `t0` to `tEnd`.
 *
 * For what moves as a wave: steps are short there, and each is read many times. It asks for a rate half as often as
 * the extrapolation, which builds a table up to its order in every step; its dense output costs three rates more, and
 * only where it is read, and reads all states at once.
 *
 * The state that is visited is valid until the step after; the solution within the visit alone.
 *
 * Source: Hairer, Norsett, Wanner, Solving Ordinary Differential Equations I, 2nd ed., II.4 (step size), II.6 (dense).
 * Checked by packages/ode/test/convergence.test.ts in closed form and tests/published/ode-*.
 */
export function rungeKutta(
  rates: Rates,
  t0: number,
  y0: readonly number[],
  tEnd: number,
  pace: Pace,
  visit: Visit,
): March {
  const n = y0.length;
  const k = STAGES.map(() => doubles(n));
  const dense = extension(rates, k);
  const nothing = doubles(n);
  const estimates = [doubles(n), doubles(n)];
  const trial = doubles(n);
  let y = doubles(n);
  let yNext = doubles(n);
  for (let i = 0; i < n; i++) y[i] = y0[i];
  let t = t0;
  let h = Math.min(pace.firstStep, pace.longest, tEnd - t0);
  let growth = LONGEST;
  rates(t, y, k[0]);
  for (let tries = 0; tries < pace.maxSteps; tries++) {
    const last = t + 1.01 * h >= tEnd;
    if (last) h = tEnd - t;
    if (t + h === t) return { ending: "too many steps", tries };
    for (let s = 1; s < END; s++) {
      add(ROWS[s], k, h, y, trial);
      rates(t + MOMENTS[s] * h, trial, k[s]);
    }
    add(ROWS[END], k, h, y, yNext);
    add(FIFTH, k, 1, nothing, estimates[0]);
    add(THIRD, k, 1, nothing, estimates[1]);
    const error = errorOf(estimates, h, y, yNext, pace.tolerance);
    const factor = Math.min(growth, Math.max(SHORTEST, IN_HAND * error ** -0.125));
    if (error > 1) {
      h *= factor;
      growth = 1;
      continue;
    }
    const tNext = last ? tEnd : t + h;
    rates(tNext, yNext, k[END]);
    dense.take(t, h, y, yNext);
    if (!visit(t, tNext, yNext, dense.read)) return { ending: "left", tries };
    [y, yNext] = [yNext, y];
    const first = k[0];
    k[0] = k[END];
    k[END] = first;
    if (last) return { ending: "arrived", tries };
    t = tNext;
    h = Math.min(h * factor, pace.longest);
    growth = LONGEST;
  }
  return { ending: "too many steps", tries: pace.maxSteps };
}

/** into = base + h sum(by k). */
function add(
  row: readonly Quad[],
  k: readonly number[][],
  h: number,
  base: readonly number[],
  into: number[],
): void {
  let from = base;
  for (let q = 0; q < row.length; q++) {
    const { at, by } = row[q];
    const a = h * by[0];
    const b = h * by[1];
    const c = h * by[2];
    const d = h * by[3];
    const ka = k[at[0]];
    const kb = k[at[1]];
    const kc = k[at[2]];
    const kd = k[at[3]];
    for (let i = 0; i < into.length; i++) {
      into[i] = from[i] + (a * ka[i] + b * kb[i] + c * kc[i] + d * kd[i]);
    }
    from = into;
  }
}

/** Error of a step, 1 being just allowed: the estimate of order 5, held in check by that of order 3. */
function errorOf(
  [fifth, third]: readonly (readonly number[])[],
  h: number,
  y: readonly number[],
  yNext: readonly number[],
  tolerance: number,
): number {
  let sum5 = 0;
  let sum3 = 0;
  for (let i = 0; i < y.length; i++) {
    const scale = 1 / (tolerance * (1 + Math.max(Math.abs(y[i]), Math.abs(yNext[i]))));
    const e5 = fifth[i] * scale;
    const e3 = third[i] * scale;
    sum5 += e5 * e5;
    sum3 += e3 * e3;
  }
  if (sum5 === 0) return 0;
  const error = (h * sum5) / Math.sqrt((sum5 + 0.01 * sum3) * y.length);
  return error - error === 0 ? error : Number.POSITIVE_INFINITY;
}

interface Extension {
  take(t: number, h: number, y: number[], yNext: number[]): void;
  readonly read: Solution;
}

/** The polynomial of order 7 through a step, made when it is first read. */
function extension(rates: Rates, k: readonly number[][]): Extension {
  const n = k[0].length;
  const f = Array.from({ length: 7 }, () => doubles(n));
  const [f0, f1, f2, f3, f4, f5, f6] = f;
  const trial = doubles(n);
  const nothing = doubles(n);
  let [t, h, made] = [0, 1, false];
  let [y, yNext] = [nothing, nothing];
  const make = (): void => {
    for (let s = END + 1; s < STAGES.length; s++) {
      add(ROWS[s], k, h, y, trial);
      rates(t + MOMENTS[s] * h, trial, k[s]);
    }
    for (let i = 0; i < n; i++) {
      const moved = yNext[i] - y[i];
      f0[i] = moved;
      f1[i] = h * k[0][i] - moved;
      f2[i] = 2 * moved - h * (k[END][i] + k[0][i]);
    }
    for (let j = 0; j < HIGHEST.length; j++) add(HIGHEST[j], k, h, nothing, f[3 + j]);
    made = true;
  };
  return {
    take(tOld, step, before, after) {
      [t, h, y, yNext, made] = [tOld, step, before, after, false];
    },
    read(at, into) {
      if (!made) make();
      const x = (at - t) / h;
      const w = 1 - x;
      const p1 = x * w;
      const p2 = x * p1;
      const p3 = w * p2;
      const p4 = x * p3;
      const p5 = w * p4;
      const p6 = x * p5;
      for (let i = 0; i < n; i++) {
        const low = x * f0[i] + p1 * f1[i] + p2 * f2[i];
        into[i] = y[i] + (low + (p3 * f3[i] + p4 * f4[i] + (p5 * f5[i] + p6 * f6[i])));
      }
    },
  };
}
