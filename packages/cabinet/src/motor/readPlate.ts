import type { Issue } from "../issue.ts";
import type { FitTargets } from "./fitTargets.ts";
import type { Nameplate } from "./nameplate.ts";
import type { Notebook } from "./notebook.ts";
import { plateIssues } from "./plateIssues.ts";
import { ratingOf } from "./plateRating.ts";
import { speedOf } from "./plateSpeed.ts";
import {
  breakdownTorqueOf,
  lockedRotorCurrentOf,
  lockedRotorTorqueOf,
  type TorqueTarget,
} from "./plateStart.ts";
import { typeOf } from "./plateType.ts";
import { USUAL_LOCKED_ROTOR_POWER_FACTOR } from "./usualValues.ts";

export interface PlateReading {
  readonly targets: FitTargets;
  readonly power_W: number;
  readonly speed_rpm: number;
  readonly lockedRotorTorque: TorqueTarget;
  readonly breakdownTorque: TorqueTarget;
}

const isIssue = <T extends object>(found: T | Issue | number): found is Issue =>
  typeof found === "object" && "path" in found;

/** A stated torque is to be met; one that is only usual gives way before the circuit becomes a freak. */
const spread = (torque: TorqueTarget): number => (torque.plausible_Nm === null ? 0.015 : 0.03);

/** Reads a plate into one consistent set of figures; everything taken or not believed goes into the notebook. */
export function readPlate(plate: Nameplate, notes: Notebook): PlateReading | Issue[] {
  const issues = plateIssues(plate);
  if (issues.length > 0) return issues;
  const type = typeOf(plate, notes);
  const speed = speedOf(plate, notes);
  const rating = ratingOf(plate, type, notes);
  if (isIssue(speed) || isIssue(rating)) return [rating, speed].filter(isIssue);
  const speed_rpm = (1 - speed.slip) * ((120 * plate.frequency_Hz) / speed.poles);
  const torque_Nm = rating.power_W / (speed_rpm * (Math.PI / 30));
  const current = lockedRotorCurrentOf(plate, type, rating, notes);
  const locked = lockedRotorTorqueOf(plate, type, torque_Nm);
  const crest = breakdownTorqueOf(plate, type, torque_Nm);
  if (isIssue(current) || isIssue(locked) || isIssue(crest)) return [crest, current, locked].filter(isIssue);
  const targets: FitTargets = {
    type,
    voltage_V: plate.voltage_V,
    frequency_Hz: plate.frequency_Hz,
    ...speed,
    torque_Nm,
    fullLoadCurrent_A: rating.current_A,
    efficiency: rating.efficiency,
    efficiencySpread: rating.efficiencyStated ? 0.008 : 0.04,
    lockedRotorCurrent_A: current,
    lockedRotorTorque_Nm: locked.value_Nm,
    lockedRotorTorqueSpread: spread(locked),
    lockedRotorPowerFactor: USUAL_LOCKED_ROTOR_POWER_FACTOR.value,
    breakdownTorque_Nm: crest.value_Nm,
    breakdownTorqueSpread: spread(crest),
    startCapacitor_F: plate.startCapacitor_F ?? null,
    runCapacitor_F: plate.runCapacitor_F ?? null,
  };
  return { targets, power_W: rating.power_W, speed_rpm, lockedRotorTorque: locked, breakdownTorque: crest };
}
