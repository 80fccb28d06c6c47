import type { Conductor, Metal } from "./conductor.ts";

/** How a wire is made up: one solid wire, a few strands, or the fine strands of a cord. */
export type Build = "solid" | "stranded" | "flexible";

export interface Resistivity {
  readonly at20C_ohmm: number;
  /** Relative change of resistance for each kelvin from 20 degC. */
  readonly temperatureCoefficient_perK: number;
}

/**
 * Resistivity of conductor metals.
 *
 * Copper, 100 % IACS: 1/58 ohm mm2/m and 0.00393 per K, IEC 60028 (from memory). Aluminium, 61 % IACS:
 * 0.028264 ohm mm2/m and 0.00403 per K, IEC 60889 (from memory).
 */
export const resistivity: Readonly<Record<Metal, Resistivity>> = {
  Cu: { at20C_ohmm: 1e-6 / 58, temperatureCoefficient_perK: 0.00393 },
  Al: { at20C_ohmm: 0.028264e-6, temperatureCoefficient_perK: 0.00403 },
};

/**
 * Strands are laid in a helix, so each is longer than the wire: 2 % more resistance. ASTM B8 (from memory);
 * NEC Chapter 9 Table 8 prints 1.8 to 2.6 % between its solid and stranded rows.
 */
export const STRANDING = 1.02;

/**
 * Resistance of one conductor for each metre, ohm/m: R = rho A^-1 (1 + alpha (T - 20)).
 *
 * A gauge size is worked out from its area, a metric size from the greatest resistance its standard allows.
 * Direct current: skin and proximity effect are left out. At 60 Hz they add under 1 % up to 2/0 AWG in plastic
 * conduit, 2 % at 4/0 (NEC Chapter 9 Table 9 against Table 8); steel conduit adds up to 4 % there.
 *
 * @param temperature_C of the metal, -40 to 250 degC
 * @throws RangeError outside that
 * Source: IEC 60028 for the temperature law. Checked by tests/published/wire-nec-chapter-9, wire-nbs-100 and
 * wire-bs-7671.
 */
export function conductorResistance_ohmPerM(
  conductor: Conductor,
  temperature_C: number,
  build: Build,
): number {
  if (!(temperature_C >= -40 && temperature_C <= 250)) {
    throw new RangeError(`invalid temperature: ${temperature_C} (expected -40 to 250)`);
  }
  const { temperatureCoefficient_perK } = resistivity[conductor.metal];
  return resistanceAt20C_ohmPerM(conductor, build) * (1 + temperatureCoefficient_perK * (temperature_C - 20));
}

function resistanceAt20C_ohmPerM(conductor: Conductor, build: Build): number {
  const geometric = resistivity[conductor.metal].at20C_ohmm / conductor.area_m2;
  if (conductor.size.system === "AWG") return geometric * (build === "solid" ? 1 : STRANDING);
  const { stranded_ohmPerKm, flexible_ohmPerKm } = conductor.size.row;
  const printed_ohmPerKm =
    build === "flexible" && conductor.metal === "Cu" ? flexible_ohmPerKm : stranded_ohmPerKm[conductor.metal];
  return printed_ohmPerKm === null ? geometric * STRANDING : printed_ohmPerKm * 1e-3;
}
