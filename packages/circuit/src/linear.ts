/**
 * Solves A x = b by elimination with the largest pivot of each column; A by rows. Changes both arguments.
 *
 * @returns b, now holding x; null when a pivot vanishes
 * Checked by packages/circuit/test/linear.test.ts.
 */
export function solved(a: number[][], b: number[]): number[] | null {
  const n = b.length;
  for (let k = 0; k < n; k++) {
    const pivot = largestBelow(a, k);
    if (!(Math.abs(a[pivot][k]) > 0)) return null;
    [a[k], a[pivot]] = [a[pivot], a[k]];
    [b[k], b[pivot]] = [b[pivot], b[k]];
    for (let i = k + 1; i < n; i++) {
      const factor = a[i][k] / a[k][k];
      for (let j = k; j < n; j++) a[i][j] -= factor * a[k][j];
      b[i] -= factor * b[k];
    }
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let j = i + 1; j < n; j++) b[i] -= a[i][j] * b[j];
    b[i] /= a[i][i];
  }
  return b;
}

function largestBelow(a: readonly (readonly number[])[], k: number): number {
  let pivot = k;
  for (let i = k + 1; i < a.length; i++) if (Math.abs(a[i][k]) > Math.abs(a[pivot][k])) pivot = i;
  return pivot;
}
