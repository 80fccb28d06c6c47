import type { MeltTerms } from "@startgap/circuit";

/** Ambient temperature of published curves: common practice, no source (from memory). */
export const CURVE_AMBIENT_C = 25;

/** Ambient temperatures for which a factor is given. */
export const AMBIENT_C = { least: -40, most: 85 } as const;

/**
 * Current of a time-delay fuse against its curve at 25 degC: 95 % at 40, 90 % at 50 and 80 % at 65 degC.
 * Common practice, no source (from memory).
 */
const DERATING: readonly (readonly [ambient_C: number, factor: number])[] = [
  [25, 1],
  [40, 0.95],
  [50, 0.9],
  [65, 0.8],
];

/**
 * Factor on every current of a fuse's curve at an ambient temperature.
 *
 * Straight lines between the tabulated temperatures, the outer ones prolonged: above 1 in the cold.
 *
 * @param ambient_C air around the fuse, -40 to 85 degC
 * @returns factor, 1 at 25 degC
 * @throws RangeError outside that range
 *
 * Limitation: the table is for time-delay fuses; fast ones shift less.
 * Source: common practice, no source (from memory). Checked by packages/cabinet/test/fuseAmbient.test.ts.
 */
export function ambientFactor(ambient_C: number): number {
  if (!(ambient_C >= AMBIENT_C.least && ambient_C <= AMBIENT_C.most))
    throw new RangeError(
      `invalid ambient_C: ${ambient_C} (expected ${AMBIENT_C.least} to ${AMBIENT_C.most})`,
    );
  const after = DERATING.findIndex(([at_C], n) => n > 0 && ambient_C <= at_C);
  const n = after < 0 ? DERATING.length - 1 : after;
  const [a_C, a] = DERATING[n - 1];
  const [b_C, b] = DERATING[n];
  return a + ((b - a) * (ambient_C - a_C)) / (b_C - a_C);
}

/**
 * The same element in warmer or colder air.
 *
 * Every melting current moves by `ambientFactor`, the short times' too: less heat is needed to reach the melting
 * point from a warmer start, in the same proportion as less current is needed to stay there.
 *
 * @param terms the element at 25 degC
 * @param ambient_C -40 to 85 degC
 */
export function derated(terms: MeltTerms, ambient_C: number): MeltTerms {
  return withCurrents(terms, ambientFactor(ambient_C));
}

/** The same element with all its melting currents times a factor. */
export function withCurrents(terms: MeltTerms, factor: number): MeltTerms {
  return Object.freeze({ ...terms, minimumFusing_A: terms.minimumFusing_A * factor });
}
