import type { Issue } from "../issue.ts";
import { nearestName } from "../nearest.ts";
import { type GaugeRow, gaugeArea_m2, gaugeSizes, type MetricRow, metricSizes } from "./sizes.ts";

export type Metal = "Cu" | "Al";

/** One wire, named as people name it. */
export interface Conductor {
  /** "12 AWG Cu" or "2.5 mm2 Cu". */
  readonly name: string;
  readonly metal: Metal;
  /** Metal cross-section; for a metric size the nominal area it is named after. */
  readonly area_m2: number;
  /** The row of its table. */
  readonly size:
    | { readonly system: "AWG"; readonly row: GaugeRow }
    | { readonly system: "mm2"; readonly row: MetricRow };
}

const metals: Readonly<Record<string, Metal>> = {
  cu: "Cu",
  copper: "Cu",
  al: "Al",
  aluminium: "Al",
  aluminum: "Al",
};

const PATTERN =
  /^#?\s*(\d{1,3}(?:\.\d{1,3})?(?:\/0)?)\s*(awg|mm2|mm\u00b2|mm\^2|sq\.? ?mm)(?:\s*([a-z]+))?$/i;

/** Every conductor that is known, thinnest first: copper, then aluminium. */
export const conductorNames: readonly string[] = (["Cu", "Al"] as const).flatMap((metal) => [
  ...gaugeSizes.map((row) => `${row.size} AWG ${metal}`),
  ...metricSizes.map((row) => `${row.size} mm2 ${metal}`),
]);

/**
 * Reads the name of a conductor: "12 AWG Cu", "1/0 AWG Al", "2.5 mm2 Cu".
 *
 * @returns the conductor, or the one thing wrong with the name, at the path "conductor"
 */
export function conductorNamed(name: unknown): Conductor | Issue {
  if (typeof name !== "string" || name.length > 80) return unknown(name);
  const [, size = "", unit = "", metalName = ""] = PATTERN.exec(name.trim()) ?? [];
  if (size === "") return unknown(name, nearestName(name, conductorNames));
  const metal = metals[metalName.toLowerCase()];
  const awg = unit.toLowerCase() === "awg";
  const found = awg ? gauge(size, metal ?? "Cu") : metricSize(size, metal ?? "Cu");
  if (found === undefined) return unknown(name, nearestSize(size, awg, metal ?? "Cu"));
  return metal === undefined ? unknown(name, found.name) : found;
}

function gauge(size: string, metal: Metal): Conductor | undefined {
  const row = gaugeSizes.find((known) => known.size === size);
  if (row === undefined) return undefined;
  return {
    name: `${size} AWG ${metal}`,
    metal,
    area_m2: gaugeArea_m2(row.gauge),
    size: { system: "AWG", row },
  };
}

function metricSize(size: string, metal: Metal): Conductor | undefined {
  const row = metricSizes.find((known) => known.area_mm2 === Number(size));
  if (row === undefined) return undefined;
  return {
    name: `${row.size} mm2 ${metal}`,
    metal,
    area_m2: row.area_mm2 * 1e-6,
    size: { system: "mm2", row },
  };
}

/** The size in the table nearest to one that is not: by gauge number, or by the ratio of the areas. */
function nearestSize(size: string, awg: boolean, metal: Metal): string {
  if (awg) {
    const asked = size.endsWith("/0") ? 1 - Number(size.slice(0, -2)) : Number(size);
    return `${closest(gaugeSizes, (row) => Math.abs(row.gauge - asked)).size} AWG ${metal}`;
  }
  const asked = Math.log(Math.max(Number(size) || 0, 1e-3));
  return `${closest(metricSizes, (row) => Math.abs(Math.log(row.area_mm2) - asked)).size} mm2 ${metal}`;
}

function closest<T>(rows: readonly T[], distance: (row: T) => number): T {
  return rows.reduce((best, row) => (distance(row) < distance(best) ? row : best));
}

function unknown(name: unknown, nearest?: string): Issue {
  const received = typeof name === "string" ? `"${name}"` : name === undefined ? "nothing" : String(name);
  const expected =
    'a wire size and its metal, as "12 AWG Cu" or "2.5 mm2 Cu" (18 to 4/0 AWG, 0.75 to 95 mm2, Cu or Al)';
  const issue = { path: "conductor", expected, received: received.slice(0, 80) };
  return nearest === undefined ? issue : { ...issue, nearest };
}
