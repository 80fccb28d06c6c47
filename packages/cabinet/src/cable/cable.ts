import type { Impedance } from "@startgap/circuit";
import type { Assumption, Derived } from "../grade.ts";
import type { Issue } from "../issue.ts";
import { nearestName } from "../nearest.ts";
import { isWithin, isWithinIfStated, shown, shownRange } from "./check.ts";
import { type Conductor, conductorNamed } from "./conductor.ts";
import { conductorReactance_ohmPerM, isTabulated, type Run, runs } from "./reactance.ts";
import { conductorResistance_ohmPerM, STRANDING } from "./resistance.ts";

/** A two-wire cable as a builder describes it. What is left out is assumed and listed. */
export interface CableSpec {
  /** "12 AWG Cu" or "2.5 mm2 Cu"; see `conductorNames`. */
  readonly conductor: string;
  /** One way, above 0 to 10000 m. */
  readonly length_m: number;
  /** Of the metal, -40 to 150 degC. Left out: 30 degC. */
  readonly temperature_C?: number;
  /** Left out: plastic conduit. */
  readonly run?: Run;
  /** 15 to 400 Hz. Left out: 60 Hz. */
  readonly frequency_Hz?: number;
}

/** Common practice, no source: a wire that has been idle, in a warm place. It runs at up to its insulation's limit. */
const DEFAULT_TEMPERATURE_C = 30;
const TEMPERATURE_RANGE_C = [20, 75] as const;

/**
 * Loop impedance of a two-wire cable, out and back, ohm.
 *
 * Each wire as conductorResistance_ohmPerM and conductorReactance_ohmPerM, times twice the length. Joints and
 * terminals are not counted. The metal stays at one temperature: a start is too short to heat it much.
 *
 * @param part name of the part, for the list of assumptions
 * @returns the impedance and what was taken from tables or assumed, or everything wrong with the description
 * Checked by tests/published/wire-nec-chapter-9 and packages/cabinet/test/cable.test.ts.
 */
export function cableImpedance(spec: CableSpec, part = "cable"): Derived<Impedance> | Issue[] {
  const issues: Issue[] = [];
  const conductor = conductorNamed(spec.conductor);
  if ("path" in conductor) issues.push(conductor);
  isWithin(issues, "length", spec.length_m, {
    a: "a length",
    unit: "m",
    from: 0,
    above: true,
    to: 10000,
    example: '"40 ft"',
  });
  isWithinIfStated(issues, "temperature", spec.temperature_C, {
    a: "a temperature",
    unit: "degC",
    from: -40,
    to: 150,
    example: '"30 degC"',
  });
  isWithinIfStated(issues, "frequency", spec.frequency_Hz, {
    a: "a frequency",
    unit: "Hz",
    from: 15,
    to: 400,
    example: '"60 Hz"',
  });
  if (spec.run !== undefined && !runs.includes(spec.run)) issues.push(unknownRun(spec.run));
  if (issues.length > 0 || "path" in conductor) return issues;
  return loop(conductor, spec, part);
}

function loop(conductor: Conductor, spec: CableSpec, part: string): Derived<Impedance> {
  const {
    length_m,
    temperature_C = DEFAULT_TEMPERATURE_C,
    run = "plastic conduit",
    frequency_Hz = 60,
  } = spec;
  const build = run === "cord" ? "flexible" : "stranded";
  const r_ohmPerM = conductorResistance_ohmPerM(conductor, temperature_C, build);
  const x_ohmPerM = conductorReactance_ohmPerM(conductor, run, frequency_Hz);
  return {
    value: { r_ohm: 2 * length_m * r_ohmPerM, x_ohm: 2 * length_m * x_ohmPerM },
    assumptions: [
      ...leftOut(spec, part),
      resistanceNote(conductor, part, r_ohmPerM, run),
      reactanceNote(conductor, part, x_ohmPerM, run),
    ],
  };
}

/** What the description does not say. */
function leftOut(spec: CableSpec, part: string): Assumption[] {
  const assumed = (what: string, value: string, range: string | null): Assumption => ({
    part,
    what,
    value,
    range,
    grade: "assumed",
    basis: "common practice, no source",
  });
  const notes: Assumption[] = [];
  if (spec.temperature_C === undefined) {
    const range = shownRange(...TEMPERATURE_RANGE_C, "degC");
    notes.push(assumed("wire temperature", shown(DEFAULT_TEMPERATURE_C, "degC"), range));
  }
  if (spec.run === undefined) notes.push(assumed("how the wires run", "plastic conduit", null));
  if (spec.frequency_Hz === undefined) notes.push(assumed("frequency", "60 Hz", "50 to 60 Hz"));
  return notes;
}

function resistanceNote(conductor: Conductor, part: string, r_ohmPerM: number, run: Run): Assumption {
  const perKm = 1000 * r_ohmPerM;
  const gauge = conductor.size.system === "AWG";
  return {
    part,
    what: `resistance of one ${conductor.name} wire`,
    value: shown(perKm, "ohm/km"),
    range: gauge ? shownRange(perKm / STRANDING, perKm, "ohm/km") : null,
    grade: "table",
    basis: gauge
      ? "ASTM B258 area, IEC 60028 resistivity, 2 % for strands; as NEC Chapter 9 Table 8"
      : `IEC 60228 class ${run === "cord" ? 5 : 2}, greatest resistance (from memory)`,
  };
}

function reactanceNote(conductor: Conductor, part: string, x_ohmPerM: number, run: Run): Assumption {
  const perKm = 1000 * x_ohmPerM;
  const tabulated = run !== "cord" && isTabulated(conductor);
  return {
    part,
    what: `reactance of one ${conductor.name} wire, ${run}`,
    value: shown(perKm, "ohm/km"),
    range: shownRange(0.8 * perKm, 1.2 * perKm, "ohm/km"),
    grade: tabulated ? "table" : "assumed",
    basis: reactanceBasis(tabulated, run),
  };
}

function reactanceBasis(tabulated: boolean, run: Run): string {
  if (run === "cord")
    return "two round wires side by side; thickness of insulation: common practice, no source";
  return tabulated ? "NEC Chapter 9 Table 9" : "between the sizes of NEC Chapter 9 Table 9";
}

function unknownRun(run: unknown): Issue {
  const received = typeof run === "string" ? `"${run.slice(0, 78)}"` : String(run).slice(0, 80);
  const nearest = typeof run === "string" ? nearestName(run, runs) : undefined;
  const issue = {
    path: "run",
    expected: 'how the wires run: "plastic conduit", "metal conduit" or "cord"',
    received,
  };
  return nearest === undefined ? issue : { ...issue, nearest };
}
