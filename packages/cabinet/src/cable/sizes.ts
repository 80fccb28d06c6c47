/** Square metres in one circular mil, a disc 0.001 in across. */
export const CIRCULAR_MIL_M2 = (Math.PI / 4) * 0.0000254 ** 2;

/** Metres in 1000 ft, the length that North American conductor tables are printed for. */
export const THOUSAND_FEET_M = 304.8;

/** One American wire gauge size. Ohms are per 1000 ft of one conductor at 75 degC, as printed. */
export interface GaugeRow {
  readonly size: string;
  /** The gauge number n; 1/0 is 0, 2/0 is -1, 3/0 is -2, 4/0 is -3. */
  readonly gauge: number;
  /** Reactance at 60 Hz in plastic and in steel conduit; null where the table has no such size. */
  readonly reactance_ohmPerKft: { readonly plastic: number; readonly steel: number } | null;
}

const row = (size: string, gauge: number, plastic?: number, steel?: number): GaugeRow => ({
  size,
  gauge,
  reactance_ohmPerKft: plastic === undefined || steel === undefined ? null : { plastic, steel },
});

/**
 * American wire gauge, 18 to 4/0.
 *
 * Reactance: NEC Chapter 9 Table 9, three single conductors in conduit, 60 Hz. Sizes 1 to 4/0 (from memory).
 * Checked by tests/published/wire-nec-chapter-9.
 */
export const gaugeSizes: readonly GaugeRow[] = [
  row("18", 18),
  row("16", 16),
  row("14", 14, 0.058, 0.073),
  row("12", 12, 0.054, 0.068),
  row("10", 10, 0.05, 0.063),
  row("8", 8, 0.052, 0.065),
  row("6", 6, 0.051, 0.064),
  row("4", 4, 0.048, 0.06),
  row("3", 3, 0.047, 0.059),
  row("2", 2, 0.045, 0.057),
  row("1", 1, 0.046, 0.057),
  row("1/0", 0, 0.044, 0.055),
  row("2/0", -1, 0.043, 0.054),
  row("3/0", -2, 0.042, 0.052),
  row("4/0", -3, 0.041, 0.051),
];

/** One metric size. Greatest resistance of one conductor at 20 degC, ohm/km; null where not standardised. */
export interface MetricRow {
  readonly size: string;
  readonly area_mm2: number;
  readonly stranded_ohmPerKm: { readonly Cu: number; readonly Al: number | null };
  readonly flexible_ohmPerKm: number;
}

const metric = (area_mm2: number, Cu: number, flexible_ohmPerKm: number, Al: number | null): MetricRow => ({
  size: String(area_mm2),
  area_mm2,
  stranded_ohmPerKm: { Cu, Al },
  flexible_ohmPerKm,
});

/**
 * Metric sizes 0.75 to 95 mm2: they are defined by this resistance, not by the area they are named after.
 *
 * IEC 60228 (from memory): classes 1 and 2 of plain copper and of aluminium, class 5 of plain copper.
 * Checked by tests/published/wire-bs-7671 against an independent table of volt drop.
 */
export const metricSizes: readonly MetricRow[] = [
  metric(0.75, 24.5, 26, null),
  metric(1, 18.1, 19.5, null),
  metric(1.5, 12.1, 13.3, null),
  metric(2.5, 7.41, 7.98, null),
  metric(4, 4.61, 4.95, null),
  metric(6, 3.08, 3.3, null),
  metric(10, 1.83, 1.91, 3.08),
  metric(16, 1.15, 1.21, 1.91),
  metric(25, 0.727, 0.78, 1.2),
  metric(35, 0.524, 0.554, 0.868),
  metric(50, 0.387, 0.386, 0.641),
  metric(70, 0.268, 0.272, 0.443),
  metric(95, 0.193, 0.206, 0.32),
];

/**
 * Diameter of a solid wire of the American wire gauge, m: d = 0.127 mm x 92^((36 - n)/39).
 *
 * @param gauge gauge number; 1/0 is 0 and 4/0 is -3; -3 to 40
 * Source: ASTM B258. Checked by tests/published/wire-astm-b258.
 */
export function gaugeDiameter_m(gauge: number): number {
  if (!(gauge >= -3 && gauge <= 40)) throw new RangeError(`invalid gauge: ${gauge} (expected -3 to 40)`);
  return 0.000127 * 92 ** ((36 - gauge) / 39);
}

/** Metal cross-section of a solid wire of the American wire gauge, m2; the same for stranded wire. */
export const gaugeArea_m2 = (gauge: number): number => (Math.PI / 4) * gaugeDiameter_m(gauge) ** 2;
