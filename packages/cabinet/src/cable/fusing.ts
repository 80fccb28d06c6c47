import { CIRCULAR_MIL_M2 } from "./sizes.ts";

/** Melting point of copper as the formula's author took it, degC. */
const COPPER_MELTS_C = 1083;

/**
 * Current that melts a copper wire within a time, A: 33 (I/A)^2 t = log10((Tm - Ta)/(234 + Ta) + 1), A in circular
 * mils, Tm = 1083 degC.
 *
 * All heat stays in the wire. Copies with 234 - Ta in the denominator are wrong.
 *
 * @param area_m2   metal cross-section, above 0
 * @param time_s    above 0, to about 10 s
 * @param ambient_C temperature at the start, -40 to 250 degC
 * @throws RangeError outside those
 * Source: Onderdonk's formula as in E. R. Stauffacher, General Electric Review 31 (1928) p. 326 (from memory).
 * Checked by tests/published/wire-onderdonk.
 */
export function onderdonkFusing_A(area_m2: number, time_s: number, ambient_C: number): number {
  if (!(area_m2 > 0)) throw new RangeError(`invalid area: ${area_m2} (expected above 0)`);
  if (!(time_s > 0)) throw new RangeError(`invalid time: ${time_s} (expected above 0)`);
  if (!(ambient_C >= -40 && ambient_C <= 250)) {
    throw new RangeError(`invalid ambient: ${ambient_C} (expected -40 to 250)`);
  }
  const log = Math.log10((COPPER_MELTS_C - ambient_C) / (234 + ambient_C) + 1);
  return (area_m2 / CIRCULAR_MIL_M2) * Math.sqrt(log / (33 * time_s));
}

/** Preece's constant for copper with the diameter in inches. */
const PREECE_COPPER_INCH = 10244;
const INCH_M = 0.0254;

/**
 * Current that melts a copper wire in still air if it lasts, A: I = 10244 d^1.5, d in inches.
 *
 * @param diameter_m above 0
 * Limitation: a long bare wire in free air; in insulation or between short terminals it is another current.
 * Source: W. H. Preece, Proceedings of the Royal Society (1884 to 1888), as handbook tables give it.
 * Checked by tests/published/wire-preece.
 */
export function preeceFusing_A(diameter_m: number): number {
  if (!(diameter_m > 0)) throw new RangeError(`invalid diameter: ${diameter_m} (expected above 0)`);
  return PREECE_COPPER_INCH * (diameter_m / INCH_M) ** 1.5;
}
