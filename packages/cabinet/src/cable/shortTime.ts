import type { Metal } from "./conductor.ts";
import { CIRCULAR_MIL_M2 } from "./sizes.ts";

/** Constant and reciprocal of the temperature coefficient at 0 degC: IEC 60364-5-54 annex A; Al (from memory). */
const adiabaticConstants: Readonly<Record<Metal, { readonly K: number; readonly beta_C: number }>> = {
  Cu: { K: 226, beta_C: 234.5 },
  Al: { K: 148, beta_C: 228 },
};

/** Temperatures of an insulation before and after a short circuit. */
export interface ShortCircuitLimit {
  readonly insulation: string;
  readonly initial_C: number;
  readonly final_C: number;
}

/** IEC 60364-4-43 table 43A and IEC 60364-5-54 annex A, conductors up to 300 mm2. */
export const shortCircuitLimits: readonly ShortCircuitLimit[] = [
  { insulation: "PVC 70 degC", initial_C: 70, final_C: 160 },
  { insulation: "PVC 90 degC", initial_C: 90, final_C: 160 },
  { insulation: "XLPE or EPR", initial_C: 90, final_C: 250 },
  { insulation: "rubber 60 degC", initial_C: 60, final_C: 200 },
  { insulation: "rubber 85 degC", initial_C: 85, final_C: 220 },
  { insulation: "silicone rubber", initial_C: 180, final_C: 350 },
];

/**
 * The k of the adiabatic rule k^2 S^2 >= I^2 t, in the A s^(1/2)/mm2 that the standard prints it in:
 * k = K sqrt(ln((beta + final)/(beta + initial))).
 *
 * All heat stays in the metal: its resistance rises with temperature as (beta + T), which integrates to the log.
 *
 * @param initial_C, final_C degC, from -40, final above initial
 * Limitation: up to about 5 s; beyond it heat leaves and the rule is on the safe side.
 * Source: IEC 60364-5-54 annex A; IEC 60949. Checked by tests/published/wire-iec-60364.
 */
export function adiabaticK(metal: Metal, initial_C: number, final_C: number): number {
  if (!(initial_C >= -40 && final_C > initial_C && final_C <= 700)) {
    throw new RangeError(`invalid temperatures: ${initial_C} to ${final_C} (expected rising, -40 to 700)`);
  }
  const { K, beta_C } = adiabaticConstants[metal];
  return K * Math.sqrt(Math.log((beta_C + final_C) / (beta_C + initial_C)));
}

const MM2_PER_M2 = 1e6;

/** Let-through that a conductor of this area (m2) survives, A2s: k^2 S^2. Source: IEC 60364-4-43, 434.5.2. */
export const withstand_A2s = (k: number, area_m2: number): number => (k * area_m2 * MM2_PER_M2) ** 2;

/** Smallest area, m2, that survives a let-through (A2s, 0 or more): S = sqrt(I^2 t)/k. IEC 60364-4-43, 434.5.2. */
export const adiabaticArea_m2 = (k: number, letThrough_A2s: number): number =>
  Math.sqrt(letThrough_A2s) / k / MM2_PER_M2;

/**
 * Current that heats copper from one temperature to another within a time, A:
 * (I/A)^2 t = 0.0297 log10((T2 + 234)/(T1 + 234)), A in circular mils.
 *
 * @param area_m2 metal cross-section; @param time_s above 0, to about 10 s
 * Source: ICEA P-32-382. Checked by tests/published/wire-icea.
 */
export function iceaWithstand_A(area_m2: number, time_s: number, initial_C: number, final_C: number): number {
  if (!(time_s > 0)) throw new RangeError(`invalid time: ${time_s} (expected above 0)`);
  const perTime = 0.0297 * Math.log10((final_C + 234) / (initial_C + 234));
  return (area_m2 / CIRCULAR_MIL_M2) * Math.sqrt(perTime / time_s);
}
