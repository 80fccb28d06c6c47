import { adiabaticK, type MotorInsulation } from "@startgap/cabinet";

/** Average rise of a winding at rated load in air of 40 degC, K. Source: NEMA MG 1 12.42. */
export const RATED_RISE_K: Readonly<Record<MotorInsulation, number>> = { A: 60, B: 80, F: 105 };
/** The same with a service factor above 1. Source: NEMA MG 1 12.42. */
export const SERVICE_RISE_K: Readonly<Record<MotorInsulation, number>> = { A: 70, B: 90, F: 115 };
/** What a winding may reach while its rotor is held still. Source: UL 1004, locked-rotor limits (from memory). */
export const LOCKED_C: Readonly<Record<MotorInsulation, number>> = { A: 200, B: 225, F: 250 };
const AIR_C = 40;

/** Current densities, A/mm2: common practice, no source (4 to 8 in a main winding at full load, 40 to 80 in a start winding at rest). */
export const DENSITY_Apmm2 = { main: 6, start: 60 } as const;

/**
 * How long a hot copper winding bears a current density before it reaches its locked-rotor limit, s: t = (k/J)^2.
 *
 * All heat stays in the copper, which is so for seconds. Source: IEC 60364-5-54 annex A for k.
 *
 * @param density_Apmm2 above 0
 * Checked by tests/published/adiabatic-stall.
 */
export function stallTime_s(insulation: MotorInsulation, density_Apmm2: number): number {
  if (!(density_Apmm2 > 0))
    throw new RangeError(`invalid density_Apmm2: ${density_Apmm2} (expected above 0)`);
  const k = adiabaticK("Cu", AIR_C + RATED_RISE_K[insulation], LOCKED_C[insulation]);
  return (k / density_Apmm2) ** 2;
}
