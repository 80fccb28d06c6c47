import type { MotorPoint } from "@startgap/circuit";
import type { Issue } from "../issue.ts";
import type { MotorFit } from "./fit.ts";
import type { Nameplate } from "./nameplate.ts";
import { percent, text } from "./notebook.ts";
import { isMissing } from "./plateIssues.ts";
import type { TorqueTarget } from "./plateStart.ts";
import type { PlateReading } from "./readPlate.ts";

/** One figure of the plate against what the fitted circuit gives. */
export interface FitCheck {
  /** As a cabinet file calls it. */
  readonly key: "fullLoadCurrent" | "power" | "lockedRotorCurrent" | "lockedRotorTorque" | "breakdownTorque";
  readonly what: string;
  readonly wanted: number;
  readonly got: number;
  readonly unit: "A" | "N m";
  /** Most relative deviation allowed. */
  readonly within: number;
  readonly met: boolean;
}

const CURRENT = 0.02;
const TORQUE = 0.1;

const amperes = ({ line_A: { re, im } }: MotorPoint): number => Math.hypot(re, im);

/** Holds the fitted circuit against the five figures it must meet. */
export function fitChecks(reading: PlateReading, fit: MotorFit): FitCheck[] {
  const { targets } = reading;
  const check = (
    key: FitCheck["key"],
    what: string,
    unit: FitCheck["unit"],
    [got, wanted]: readonly [number, number],
    within: number,
    plausible: TorqueTarget["plausible_Nm"] = null,
  ): FitCheck => {
    const near = Math.abs(got / wanted - 1) <= within;
    const usual = plausible !== null && got >= plausible.low && got <= plausible.high;
    return { key, what, unit, wanted, got, within, met: near || usual };
  };
  const { lockedRotorTorque, breakdownTorque } = reading;
  const current = [amperes(fit.fullLoad), targets.fullLoadCurrent_A] as const;
  const locked = [amperes(fit.lockedRotor), targets.lockedRotorCurrent_A] as const;
  const start = [fit.lockedRotor.torque_Nm, targets.lockedRotorTorque_Nm] as const;
  const crest = [fit.breakdownTorque_Nm, targets.breakdownTorque_Nm] as const;
  return [
    check("fullLoadCurrent", "full-load current", "A", current, CURRENT),
    check("power", "torque at rated speed", "N m", [fit.fullLoad.shaftTorque_Nm, targets.torque_Nm], CURRENT),
    check("lockedRotorCurrent", "locked-rotor current", "A", locked, CURRENT),
    check("lockedRotorTorque", "locked-rotor torque", "N m", start, TORQUE, lockedRotorTorque.plausible_Nm),
    check("breakdownTorque", "breakdown torque", "N m", crest, TORQUE, breakdownTorque.plausible_Nm),
  ];
}

/** An unknown this many spreads from its usual value belongs to no machine anybody builds. */
const MOST_STRAIN = 8;
const LEAST_EFFICIENCY = 0.25;

/**
 * Why a plate is refused: the figures that no circuit of its type meets together. Empty when all is met.
 * A torque that the plate does not state is laid to the figure it was worked out beside: the start current.
 */
export function fitIssues(checks: readonly FitCheck[], fit: MotorFit, plate: Nameplate): Issue[] {
  const missed = checks.filter(({ met }) => !met);
  const { efficiency, powerFactor } = fit.fullLoad;
  if (missed.length === 0 && fit.strain <= MOST_STRAIN && efficiency >= LEAST_EFFICIENCY) return [];
  if (missed.length === 0) {
    const received = `${percent(efficiency)} efficiency at power factor ${text(powerFactor, "")}`;
    return [
      { path: "nameplate", expected: "figures that a usual machine of its type can meet together", received },
    ];
  }
  return missed.map(({ key, what, unit, wanted, got, within }) => ({
    path: `nameplate.${blamed(key, plate)}`,
    expected: `figures that one circuit can meet: ${what} within ${percent(within)} of ${text(wanted, unit)} beside the rest`,
    received: `at best ${text(got, unit)}`,
  }));
}

function blamed(key: FitCheck["key"], plate: Nameplate): string {
  const torque = key === "lockedRotorTorque" || key === "breakdownTorque";
  if (!torque || !isMissing(plate[`${key}_Nm`])) return key;
  if (!isMissing(plate.lockedRotorCurrent_A)) return "lockedRotorCurrent";
  return isMissing(plate.codeLetter) ? key : "codeLetter";
}
