import type { Impedance } from "@startgap/circuit";
import type { MotorFit } from "./fit.ts";
import type { FitCheck } from "./fitChecks.ts";
import type { Nameplate } from "./nameplate.ts";
import { assume, NO_SOURCE, type Notebook, percent, rangeText, text } from "./notebook.ts";
import { isMissing } from "./plateIssues.ts";
import type { PlateReading } from "./readPlate.ts";
import {
  USUAL_LOCKED_ROTOR_POWER_FACTOR,
  USUAL_SWITCH_CLOSES,
  USUAL_SWITCH_OPENS,
  type Usual,
} from "./usualValues.ts";

const share = ({ value, low, high }: Usual): readonly [string, string] => [
  text(value, ""),
  rangeText(low, high, ""),
];

/** An unknown this many spreads from its usual value is worth a word. */
const NOTABLE_STRAIN = 3.5;

/** Writes down what the fit had to choose. */
export function noteFit(
  plate: Nameplate,
  reading: PlateReading,
  fit: MotorFit,
  checks: readonly FitCheck[],
  notes: Notebook,
): void {
  noteTorque(
    "lockedRotorTorque",
    plate.lockedRotorTorque_Nm,
    reading.lockedRotorTorque.plausible_Nm,
    checks,
    notes,
  );
  noteTorque(
    "breakdownTorque",
    plate.breakdownTorque_Nm,
    reading.breakdownTorque.plausible_Nm,
    checks,
    notes,
  );
  const { low, high } = USUAL_LOCKED_ROTOR_POWER_FACTOR;
  const factor = text(fit.lockedRotor.powerFactor, "");
  assume(
    notes,
    "locked-rotor power factor",
    factor,
    rangeText(low, high, ""),
    `as the fit gives it; range ${NO_SOURCE}`,
  );
  noteCapacitor("start capacitor", plate.startCapacitor_F, fit.machine.startCapacitor, reading, notes);
  noteCapacitor("run capacitor", plate.runCapacitor_F, fit.machine.runCapacitor, reading, notes);
  if (fit.machine.startSwitch !== null) noteSwitch(notes);
  if (fit.strain > NOTABLE_STRAIN) {
    notes.contradictions.push(
      "The figures meet in an unusual winding only: check the full-load and locked-rotor currents once more.",
    );
  }
}

function noteTorque(
  key: FitCheck["key"],
  stated: number | null | undefined,
  plausible: { readonly low: number; readonly high: number } | null,
  checks: readonly FitCheck[],
  notes: Notebook,
): void {
  if (!isMissing(stated) || plausible === null) return;
  const { what, got } = checks.find((check) => check.key === key)!;
  const range = rangeText(plausible.low, plausible.high, "N m");
  assume(
    notes,
    what,
    text(got, "N m"),
    range,
    `usual for the type as far as the currents allow; ${NO_SOURCE}`,
  );
}

function noteCapacitor(
  what: string,
  stated_F: number | null | undefined,
  branch: Impedance | null,
  { targets }: PlateReading,
  notes: Notebook,
): void {
  if (branch === null) return;
  const loss = branch.r_ohm / branch.x_ohm;
  assume(
    notes,
    `${what} loss`,
    `${percent(loss)} of its reactance`,
    `${percent(loss / 2)} to ${percent(2 * loss)}`,
    NO_SOURCE,
  );
  if (!isMissing(stated_F)) return;
  const microfarads = 1e6 / (2 * Math.PI * targets.frequency_Hz * branch.x_ohm);
  const range = rangeText(0.5 * microfarads, 1.6 * microfarads, "uF");
  assume(
    notes,
    what,
    text(microfarads, "uF"),
    range,
    `as the locked-rotor torque needs it; range ${NO_SOURCE}`,
  );
}

function noteSwitch(notes: Notebook): void {
  const [opens, opensRange] = share(USUAL_SWITCH_OPENS);
  const [closes, closesRange] = share(USUAL_SWITCH_CLOSES);
  assume(notes, "start switch opens, of synchronous speed", opens, opensRange, NO_SOURCE);
  assume(notes, "start switch recloses, of synchronous speed", closes, closesRange, NO_SOURCE);
}
