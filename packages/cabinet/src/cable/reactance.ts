import type { Conductor } from "./conductor.ts";
import { gaugeArea_m2, gaugeSizes, THOUSAND_FEET_M } from "./sizes.ts";

/** How the two wires of a cable lie: in a plastic pipe, in a steel one, or side by side under one jacket. */
export type Run = "plastic conduit" | "metal conduit" | "cord";

export const runs: readonly Run[] = ["plastic conduit", "metal conduit", "cord"];

/** Frequency that the printed reactances hold for, Hz. */
const TABLE_FREQUENCY_HZ = 60;

const VACUUM_HMPERM = 4e-7 * Math.PI;

/**
 * Reactance of one conductor for each metre of a run, ohm/m, in proportion to the frequency.
 *
 * In conduit: NEC Chapter 9 Table 9; between its sizes, and just beyond its thin end, on a straight line over the
 * logarithm of the area. "metal conduit" is steel; aluminium conduit counts as plastic.
 * In a cord: two round wires side by side, closed form below.
 *
 * @param frequency_Hz above 0 to 400
 * Limitation: wires in conduit lie at random, a real run may differ by a fifth.
 * Checked by tests/published/wire-nec-chapter-9.
 */
export function conductorReactance_ohmPerM(conductor: Conductor, run: Run, frequency_Hz: number): number {
  if (!(frequency_Hz > 0 && frequency_Hz <= 400)) {
    throw new RangeError(`invalid frequency: ${frequency_Hz} (expected above 0 to 400)`);
  }
  if (run === "cord") return 2 * Math.PI * frequency_Hz * pairInductance_HPerM(conductor.area_m2);
  const column = run === "metal conduit" ? "steel" : "plastic";
  return (tabulated_ohmPerKft(conductor, column) / THOUSAND_FEET_M) * (frequency_Hz / TABLE_FREQUENCY_HZ);
}

/** True when the table has this very size. */
export const isTabulated = (conductor: Conductor): boolean =>
  conductor.size.system === "AWG" && conductor.size.row.reactance_ohmPerKft !== null;

function tabulated_ohmPerKft(conductor: Conductor, column: "plastic" | "steel"): number {
  const own = conductor.size.system === "AWG" ? conductor.size.row.reactance_ohmPerKft : null;
  if (own !== null) return own[column];
  const points = gaugeSizes.flatMap((row) =>
    row.reactance_ohmPerKft === null
      ? []
      : [{ at: Math.log(gaugeArea_m2(row.gauge)), ohm: row.reactance_ohmPerKft[column] }],
  );
  const at = Math.log(conductor.area_m2);
  const after = points.findIndex((point, k) => k > 0 && (point.at >= at || k === points.length - 1));
  const [a, b] = [points[after - 1]!, points[after]!];
  return a.ohm + ((b.ohm - a.ohm) * (at - a.at)) / (b.at - a.at);
}

/** Insulation of flexible cords, m: common practice, no source (from memory). */
function cordInsulation_m(area_m2: number): number {
  if (area_m2 < 7e-6) return 0.8e-3;
  return area_m2 < 36e-6 ? 1.2e-3 : 1.6e-3;
}

/**
 * Inductance of one of two parallel round wires that touch with their insulation, H/m:
 * L = (mu0/2pi) (ln(D/r) + 1/4), D = 2 (r + insulation).
 *
 * The flux between the wires of a long pair, ln(D/r), plus that inside the wire, 1/4 at low frequency.
 */
function pairInductance_HPerM(area_m2: number): number {
  const r = Math.sqrt(area_m2 / Math.PI);
  const D = 2 * (r + cordInsulation_m(area_m2));
  return (VACUUM_HMPERM / (2 * Math.PI)) * (Math.log(D / r) + 0.25);
}
