import type { MeltTerms } from "@startgap/circuit";

/** One exponential of 1/I^2 = sum c (1 - e^(-t/tau)); c in 1/A^2, tau in s. */
export interface Exponential {
  readonly c: number;
  readonly tau_s: number;
}

/** One point to be kept: I^2 sum c (1 - e^(-t/tau)) = 1, counted with a weight. `time_s` may be Infinity. */
export interface Row {
  readonly current_A: number;
  readonly time_s: number;
  readonly weight: number;
}

/** 1/I^2 of the curve at one time. */
export function inverseSquare(terms: readonly Exponential[], time_s: number): number {
  let total = 0;
  for (const { c, tau_s } of terms) total -= c * Math.expm1(-time_s / tau_s);
  return total;
}

/** Weighted remainders of the rows: w (I^2 sum c (1 - e^(-t/tau)) - 1). */
export function remainders(terms: readonly Exponential[], rows: readonly Row[]): Float64Array {
  return Float64Array.from(
    rows,
    ({ current_A, time_s, weight }) => weight * (inverseSquare(terms, time_s) * current_A ** 2 - 1),
  );
}

/** ln of the curve's current over the point's, at the point's time. */
export function offset(terms: readonly Exponential[], { current_A, time_s }: Omit<Row, "weight">): number {
  return -0.5 * Math.log(inverseSquare(terms, time_s) * current_A ** 2);
}

/** Largest weighted offset of the rows. */
export function misfit(terms: readonly Exponential[], rows: readonly Row[]): number {
  return rows.reduce((most, row) => Math.max(most, row.weight * Math.abs(offset(terms, row))), 0);
}

export function ascending(terms: readonly Exponential[]): Exponential[] {
  return [...terms].sort((a, b) => a.tau_s - b.tau_s);
}

/** Two terms as one of their joint strength, at the mean of ln tau. */
export function joined(a: Exponential, b: Exponential): Exponential {
  const c = a.c + b.c;
  return { c, tau_s: a.tau_s ** (a.c / c) * b.tau_s ** (b.c / c) };
}

/** The record that the circuit integrates: a_k = c_k I_inf^2, I_inf = 1/sqrt(sum c_k). */
export function asMeltTerms(terms: readonly Exponential[]): MeltTerms {
  const list = ascending(terms);
  const total = list.reduce((sum, { c }) => sum + c, 0);
  return Object.freeze({
    minimumFusing_A: 1 / Math.sqrt(total),
    share: Object.freeze(list.map(({ c }) => c / total)),
    tau_s: Object.freeze(list.map(({ tau_s }) => tau_s)),
  });
}
