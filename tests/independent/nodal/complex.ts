import { Matrix, solve } from "ml-matrix";

export interface Complex {
  readonly re: number;
  readonly im: number;
}

export const of = (re: number, im = 0): Complex => ({ re, im });
export const add = (p: Complex, q: Complex): Complex => of(p.re + q.re, p.im + q.im);
export const minus = (p: Complex, q: Complex): Complex => of(p.re - q.re, p.im - q.im);
export const times = (p: Complex, q: Complex): Complex =>
  of(p.re * q.re - p.im * q.im, p.re * q.im + p.im * q.re);
export const over = (p: Complex, q: Complex): Complex => {
  const size = q.re * q.re + q.im * q.im;
  return of((p.re * q.re + p.im * q.im) / size, (p.im * q.re - p.re * q.im) / size);
};
export const size = (p: Complex): number => Math.hypot(p.re, p.im);

/** A complex linear system that grows by unknowns and is filled entry by entry. */
export interface System {
  /** A new unknown, with the row of the same number. */
  unknown(): number;
  put(row: number, column: number, value: Complex): void;
  right(row: number, value: Complex): void;
  /** Solved as 2n real equations by LU with partial pivoting. */
  solve(): Complex[];
}

export function system(): System {
  const entries: { row: number; column: number; value: Complex }[] = [];
  const rights: { row: number; value: Complex }[] = [];
  let n = 0;
  return {
    unknown: () => n++,
    put: (row, column, value) => entries.push({ row, column, value }),
    right: (row, value) => rights.push({ row, value }),
    solve() {
      const a = Matrix.zeros(2 * n, 2 * n);
      const b = Matrix.zeros(2 * n, 1);
      const plus = (row: number, column: number, value: number): void => {
        a.set(row, column, a.get(row, column) + value);
      };
      for (const { row, column, value } of entries) {
        plus(row, column, value.re);
        plus(row, column + n, -value.im);
        plus(row + n, column, value.im);
        plus(row + n, column + n, value.re);
      }
      for (const { row, value } of rights) {
        b.set(row, 0, b.get(row, 0) + value.re);
        b.set(row + n, 0, b.get(row + n, 0) + value.im);
      }
      const x = solve(a, b);
      return Array.from({ length: n }, (_, k) => of(x.get(k, 0), x.get(k + n, 0)));
    },
  };
}
