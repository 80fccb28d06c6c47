import type { Rules } from "./results.ts";

/** Standard ratings of fuses, A: NEC 240.6(A) to 400 A with the added fuse sizes (from memory). */
const NEC_A: readonly number[] = [
  1, 3, 6, 10, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300,
  350, 400,
];

/** Preferred ratings of fuse-links, A: IEC 60269-1 5.3.1 (from memory). */
const IEC_A: readonly number[] = [
  2, 4, 6, 10, 16, 20, 25, 32, 40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400,
];

export const standardSizes_A = (rules: Rules): readonly number[] => (rules === "NEC" ? NEC_A : IEC_A);

/** The smallest standard rating that is no lower; the current itself above the table. */
export const nextSize_A = (rules: Rules, current_A: number): number =>
  standardSizes_A(rules).find((size) => size >= current_A * (1 - 1e-9)) ?? current_A;
