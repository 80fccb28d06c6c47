import type { Machine } from "@startgap/circuit";
import type { Derived } from "../grade.ts";
import type { Issue } from "../issue.ts";
import { fitMotor, type MotorFit } from "./fit.ts";
import { type FitCheck, fitChecks, fitIssues } from "./fitChecks.ts";
import { noteFit } from "./fitNotes.ts";
import type { Nameplate } from "./nameplate.ts";
import { assume, type Notebook, notebook, rangeText, text } from "./notebook.ts";
import { type PlateReading, readPlate } from "./readPlate.ts";
import { usualRotorInertia_kgm2 } from "./rotorInertia.ts";

/** Full load as it was believed. */
export interface Rated {
  readonly power_W: number;
  readonly torque_Nm: number;
  readonly speed_rpm: number;
  readonly current_A: number;
}

/** A motor worked out from its plate. */
export interface PlateMotor {
  readonly machine: Machine;
  /** Of the rotor alone. */
  readonly inertia_kgm2: number;
  readonly rated: Rated;
  /** Where the plate speaks against itself: one sentence each, saying which figure was believed. */
  readonly contradictions: readonly string[];
  /** How near the circuit comes to each figure it was to meet. */
  readonly checks: readonly FitCheck[];
}

/**
 * A single-phase motor's equivalent circuit and rotor inertia from its nameplate.
 *
 * The plate is read into one consistent set of figures (`readPlate`), a circuit is fitted to them
 * (`fitMotor`), and the circuit is held against them: full-load current, torque at rated speed and
 * locked-rotor current within 2 %, locked-rotor and breakdown torque within 10 % (a torque that the plate
 * does not state may instead come out anywhere in its plausible range, and is then told).
 *
 * @param plate 20 to 700 V, 40 to 70 Hz, 10 W to 15 kW; what is missing is taken and told
 * @param part name of the motor, for the assumptions
 * @returns the motor with all that was assumed, or every problem at once; paths begin with "nameplate"
 *
 * Limitation: many circuits meet one plate. What the plate is silent about (the torque between standstill
 * and full load, the auxiliary winding's share of the current) is that of a usual machine. From the plate of
 * a known 1/4 hp machine the time to 75 % speed comes out 24 % long; with its start capacitor stated, 2 %.
 * Source of the circuit: see `steadyState`. Checked by packages/cabinet/test/motor-nameplate.test.ts.
 */
export function motorFromNameplate(plate: Nameplate, part = "motor"): Derived<PlateMotor> | Issue[] {
  const notes = notebook(part);
  const reading = readPlate(plate, notes);
  if (!("targets" in reading)) return reading;
  return judged(plate, reading, fitMotor(reading.targets), notes);
}

function judged(
  plate: Nameplate,
  reading: PlateReading,
  fit: MotorFit,
  notes: Notebook,
): Derived<PlateMotor> | Issue[] {
  const checks = fitChecks(reading, fit);
  const issues = fitIssues(checks, fit, plate);
  if (issues.length > 0) return issues;
  noteFit(plate, reading, fit, checks, notes);
  const { targets, power_W, speed_rpm } = reading;
  const value: PlateMotor = {
    machine: fit.machine,
    inertia_kgm2: plate.inertia_kgm2 ?? assumedInertia(power_W, targets.poles, notes),
    rated: { power_W, speed_rpm, torque_Nm: targets.torque_Nm, current_A: targets.fullLoadCurrent_A },
    contradictions: notes.contradictions,
    checks,
  };
  return { value, assumptions: notes.assumptions };
}

function assumedInertia(power_W: number, poles: number, notes: Notebook): number {
  const { value, low, high } = usualRotorInertia_kgm2(power_W, poles);
  const basis = "handbook estimate 0.02 x 2^(P/2) x hp^(1.35 - 0.05 P/2) lb ft2 for P poles";
  assume(notes, "rotor inertia", text(value, "kg m2"), rangeText(low, high, "kg m2"), basis);
  return value;
}
