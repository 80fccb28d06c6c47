import { type Columns, dot, leastSquares, residual } from "./leastSquares.ts";

/**
 * Non-negative least squares: x >= 0 that makes |A x - b| smallest.
 *
 * The active-set method: take in the column that the remainder asks for most, solve for the columns taken in,
 * step back to the boundary when one of them would turn negative, leave that one out, repeat. It stops when no
 * column is asked for by more than rounding. It may have far more columns than rows.
 *
 * @param columns columns of A, all as long as b, none all zero
 * @param target b
 * @returns x, one number a column, most of them 0
 *
 * Source: Lawson and Hanson, Solving Least Squares Problems, chapter 23, algorithm NNLS (from memory).
 * Own because the package nnls 3.0.1 fails where there are more columns than rows.
 * Checked against the conditions of optimality in packages/cabinet/test/fuseFit.test.ts.
 */
export function nonNegativeLeastSquares(columns: Columns, target: Float64Array): Float64Array {
  const size = columns.map((column) => Math.sqrt(dot(column, column)));
  const enough = 1e-13 * Math.sqrt(dot(target, target));
  const x = new Float64Array(columns.length);
  const taken = new Set<number>();
  for (let n = 0; n < 5 * columns.length; n++) {
    const next = mostWanted(columns, size, residual(columns, target, x), taken, enough);
    if (next < 0) break;
    taken.add(next);
    if (!settle(columns, target, x, taken, next)) break;
  }
  return x;
}

function mostWanted(
  columns: Columns,
  size: readonly number[],
  rest: Float64Array,
  taken: ReadonlySet<number>,
  enough: number,
): number {
  let best = -1;
  let most = enough;
  columns.forEach((column, k) => {
    const wish = taken.has(k) ? 0 : dot(column, rest) / size[k];
    if (wish > most) [best, most] = [k, wish];
  });
  return best;
}

/** Moves x to the best non-negative point on the columns taken in; false when the newcomer brings nothing. */
function settle(
  columns: Columns,
  target: Float64Array,
  x: Float64Array,
  taken: Set<number>,
  newcomer: number,
): boolean {
  for (let first = true; taken.size > 0; first = false) {
    const list = [...taken];
    const z = leastSquares(
      list.map((k) => columns[k]),
      target,
    );
    if (first && z[list.indexOf(newcomer)] <= 0) return false;
    if (z.every((value) => value > 0)) {
      x.fill(0);
      for (let i = 0; i < list.length; i++) x[list[i]] = z[i];
      return true;
    }
    stepBack(x, list, z, taken);
  }
  return true;
}

/** Goes from x towards z until the first coefficient reaches 0, and leaves that one out. */
function stepBack(x: Float64Array, list: readonly number[], z: Float64Array, taken: Set<number>): void {
  let step = 1;
  let leaves = -1;
  list.forEach((k, i) => {
    if (z[i] > 0) return;
    const reach = x[k] > 0 ? x[k] / (x[k] - z[i]) : 0;
    if (leaves < 0 || reach < step) [step, leaves] = [reach, k];
  });
  for (let i = 0; i < list.length; i++) x[list[i]] += step * (z[i] - x[list[i]]);
  x[leaves] = 0;
  taken.delete(leaves);
}
