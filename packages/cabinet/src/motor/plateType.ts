import type { MotorType, Nameplate } from "./nameplate.ts";
import { assume, NO_SOURCE, type Notebook } from "./notebook.ts";
import { isMissing } from "./plateIssues.ts";

/**
 * The type as the plate gives it, mended where the capacitors speak against it: what is bolted to the motor
 * is believed before what is printed on it. Capacitor-start when nothing is said.
 */
export function typeOf(plate: Nameplate, notes: Notebook): MotorType {
  const start = !isMissing(plate.startCapacitor_F);
  const run = !isMissing(plate.runCapacitor_F);
  const said = plate.type ?? unsaidType(run, start);
  if (isMissing(plate.type)) {
    assume(notes, "motor type", said, null, start || run ? "its capacitors" : NO_SOURCE);
  }
  const type = mended(said, start, run);
  if (type !== said) {
    const found = [start ? "a start capacitor" : "", run ? "a run capacitor" : ""]
      .filter(Boolean)
      .join(" and ");
    notes.contradictions.push(`The plate says ${said} but there is ${found}: taken as ${type}.`);
  }
  return type;
}

function unsaidType(run: boolean, start: boolean): MotorType {
  if (run) return start ? "capacitor-start-capacitor-run" : "permanent-split-capacitor";
  return "capacitor-start";
}

function mended(said: MotorType, start: boolean, run: boolean): MotorType {
  if (said === "split-phase" && (start || run)) return unsaidType(run, start);
  if (said === "capacitor-start" && run) return "capacitor-start-capacitor-run";
  if (said === "permanent-split-capacitor" && start) return "capacitor-start-capacitor-run";
  return said;
}
