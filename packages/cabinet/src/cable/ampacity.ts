/** Temperature that an insulation, or a terminal, is rated for, degC. */
export type RatedTemperature = 60 | 75 | 90;

/** Ampacity of one copper size at 30 degC around it, not more than three conductors together. */
export interface AmpacityRow {
  readonly size: string;
  readonly at60C_A: number | null;
  readonly at75C_A: number | null;
  readonly at90C_A: number;
}

const row = (size: string, at60C_A: number | null, at75C_A: number | null, at90C_A: number): AmpacityRow => ({
  size,
  at60C_A,
  at75C_A,
  at90C_A,
});

/**
 * Copper in raceway, cable or earth, ambient 30 degC: NEC Table 310.16, editions since 2011.
 *
 * The 60 degC digits of 14 to 10 AWG, 115 A for 3 AWG at 90 degC, 18 and 16 AWG, and 1 to 4/0 AWG: (from memory).
 * Before 2011 the 60 degC column read 20, 25 and 30 A for 14, 12 and 10 AWG, and 3 AWG 110 A at 90 degC.
 * Checked by tests/published/code-tables-nec-310.
 */
export const copperAmpacity: readonly AmpacityRow[] = [
  row("18", null, null, 14),
  row("16", null, null, 18),
  row("14", 15, 20, 25),
  row("12", 20, 25, 30),
  row("10", 30, 35, 40),
  row("8", 40, 50, 55),
  row("6", 55, 65, 75),
  row("4", 70, 85, 95),
  row("3", 85, 100, 115),
  row("2", 95, 115, 130),
  row("1", 110, 130, 145),
  row("1/0", 125, 150, 170),
  row("2/0", 145, 175, 195),
  row("3/0", 165, 200, 225),
  row("4/0", 195, 230, 260),
];

/**
 * Largest overcurrent device of a small copper conductor, A, whatever its insulation: NEC 240.4(D).
 *
 * 18 and 16 AWG only under the conditions of 240.4(D)(1) and (2); those two sizes (from memory). Motor circuits
 * are exempt through 240.4(G): there the motor rules size the device.
 */
export const smallConductorLimit_A: Readonly<Record<string, number>> = {
  "18": 7,
  "16": 10,
  "14": 15,
  "12": 20,
  "10": 30,
};

/** The rules above as findings quote them. */
export const ampacityBasis = { ampacity: "NEC Table 310.16", smallConductor: "NEC 240.4(D)" } as const;

const column = { 60: "at60C_A", 75: "at75C_A", 90: "at90C_A" } as const;

/**
 * Ampacity of a copper gauge size, A, corrected for the temperature around it; null where the table has none.
 *
 * @param size      "14", "1/0" ..., as in `copperAmpacity`
 * @param rated_C   rating of the insulation, 60, 75 or 90 degC
 * @param ambient_C -10 degC up to the rating; below 30 degC the ampacity rises
 * Limitation: not more than three current-carrying conductors together.
 */
export function copperAmpacity_A(size: string, rated_C: RatedTemperature, ambient_C = 30): number | null {
  const found = copperAmpacity.find((known) => known.size === size)?.[column[rated_C]] ?? null;
  return found === null ? null : found * ambientCorrection(rated_C, ambient_C);
}

/**
 * Ampacity at another ambient temperature over that at 30 degC: sqrt((Tc - Ta)/(Tc - 30)).
 *
 * The heat I^2 R that a wire sheds is in proportion to its rise over the air. The resistance is that at Tc in
 * both, so it cancels.
 *
 * @param rated_C   temperature of the conductor at its ampacity, above 30 to 250 degC
 * @param ambient_C -50 degC up to rated_C
 * @throws RangeError outside those
 * Source: NEC 310.15(B)(1), equation of the ambient correction (from memory). Checked by
 * tests/published/code-tables-nec-310.
 */
export function ambientCorrection(rated_C: number, ambient_C: number): number {
  if (!(rated_C > 30 && rated_C <= 250))
    throw new RangeError(`invalid rating: ${rated_C} (expected above 30 to 250)`);
  if (!(ambient_C >= -50 && ambient_C <= rated_C)) {
    throw new RangeError(`invalid ambient: ${ambient_C} (expected -50 to ${rated_C})`);
  }
  return Math.sqrt((rated_C - ambient_C) / (rated_C - 30));
}
