/** A dense matrix kept column by column: `columns[k][j]` is row j of column k. */
export type Columns = readonly Float64Array[];

/** Below this part of its own length a column counts as a copy of the ones before it. */
const DEPENDENT = 1e-10;

/**
 * Least-squares solution of A x = b by orthogonalising the columns one after another, twice each.
 *
 * Orthogonalising twice keeps full accuracy for the nearly parallel columns of a fine grid of exponentials,
 * where the normal equations would lose half the digits. A column that depends on earlier ones gets 0.
 *
 * @param columns columns of A, all as long as b
 * @param target b
 * @returns x, one number a column
 *
 * Source: Golub and Van Loan, Matrix Computations, section 5.2 (modified Gram-Schmidt) (from memory).
 * Checked by packages/cabinet/test/fuseFit.test.ts.
 */
export function leastSquares(columns: Columns, target: Float64Array): Float64Array {
  const basis: Float64Array[] = [];
  const upper: Float64Array[] = [];
  const kept: number[] = [];
  columns.forEach((column, k) => {
    const q = Float64Array.from(column);
    const r = new Float64Array(basis.length + 1);
    for (let pass = 0; pass < 2; pass++) for (let i = 0; i < basis.length; i++) r[i] += takeOut(q, basis[i]);
    const length = Math.sqrt(dot(q, q));
    if (!(length > DEPENDENT * Math.sqrt(dot(column, column)))) return;
    r[basis.length] = length;
    for (let j = 0; j < q.length; j++) q[j] /= length;
    basis.push(q);
    upper.push(r);
    kept.push(k);
  });
  const rest = Float64Array.from(target);
  const y = basis.map((e) => takeOut(rest, e));
  const x = new Float64Array(columns.length);
  for (let i = kept.length - 1; i >= 0; i--) {
    const z = y[i] / upper[i][i];
    for (let m = 0; m < i; m++) y[m] -= z * upper[i][m];
    x[kept[i]] = z;
  }
  return x;
}

export function dot(a: Float64Array, b: Float64Array): number {
  let total = 0;
  for (let j = 0; j < a.length; j++) total += a[j] * b[j];
  return total;
}

/** b - A x. */
export function residual(columns: Columns, target: Float64Array, x: ArrayLike<number>): Float64Array {
  const rest = Float64Array.from(target);
  columns.forEach((column, k) => {
    if (x[k] !== 0) for (let j = 0; j < rest.length; j++) rest[j] -= x[k] * column[j];
  });
  return rest;
}

/** Takes the part along the unit vector `e` out of `q` and returns its length. */
function takeOut(q: Float64Array, e: Float64Array): number {
  const along = dot(q, e);
  for (let j = 0; j < q.length; j++) q[j] -= along * e[j];
  return along;
}
