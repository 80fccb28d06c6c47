/**
 * Solves A x = b for a symmetric positive definite A by Cholesky's factorisation A = L L^T.
 *
 * @param A square, symmetric (the upper triangle is not read); left unchanged
 * @param b as long as A has rows; left unchanged
 * @returns x, or null when a pivot is not above 0: A is not positive definite
 *
 * Source: Golub & Van Loan, Matrix Computations, 4th ed., 4.2. Checked by
 * packages/cabinet/test/motor-least-squares.test.ts.
 */
export function solveCholesky(A: readonly (readonly number[])[], b: readonly number[]): number[] | null {
  const L = factor(A);
  if (L === null) return null;
  const n = b.length;
  const x = b.slice();
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) x[i] -= L[i][k] * x[k];
    x[i] /= L[i][i];
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) x[i] -= L[k][i] * x[k];
    x[i] /= L[i][i];
  }
  return x;
}

/** Lower triangle L with L L^T = A, or null. */
function factor(A: readonly (readonly number[])[]): number[][] | null {
  const L: number[][] = [];
  for (let i = 0; i < A.length; i++) {
    const row: number[] = [];
    for (let j = 0; j <= i; j++) {
      let sum = A[i][j];
      const other = i === j ? row : L[j];
      for (let k = 0; k < j; k++) sum -= row[k] * other[k];
      if (i === j && !(sum > 0)) return null;
      row.push(i === j ? Math.sqrt(sum) : sum / other[j]);
    }
    L.push(row);
  }
  return L;
}
