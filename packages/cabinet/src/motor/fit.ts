import { type Machine, type MotorPoint, steadyState } from "@startgap/circuit";
import { breakdown } from "./breakdown.ts";
import type { FitTargets } from "./fitTargets.ts";
import { machineAt, unknownsOf } from "./fitUnknowns.ts";
import { leastSquares, type Residuals } from "./leastSquares.ts";

/** Relative deviations that count as one in the sum of squares. */
const SPREAD = {
  current: 0.002,
  fullLoadTorque: 0.002,
  lockedRotorPowerFactor: 0.15,
} as const;

/** First the neighbourhood, then the figures: a stiff fit begun far off crawls along curved valleys. */
const STAGES = [
  { ease: 0.15, relativeGain: 0.01 },
  { ease: 0.02, relativeGain: 0.01 },
  { ease: 0, relativeGain: 1e-4 },
] as const;

export interface MotorFit {
  readonly machine: Machine;
  readonly fullLoad: MotorPoint;
  readonly lockedRotor: MotorPoint;
  readonly breakdownTorque_Nm: number;
  /** The unknown that had to go farthest, in spreads from its usual value. */
  readonly strain: number;
  readonly iterations: number;
}

const amperes = ({ line_A: { re, im } }: MotorPoint): number => Math.hypot(re, im);

const fullLoadOf = (targets: FitTargets, machine: Machine): MotorPoint =>
  steadyState(machine, targets.voltage_V, targets.slip, false);

const lockedRotorOf = (targets: FitTargets, machine: Machine): MotorPoint =>
  steadyState(machine, targets.voltage_V, 1, true);

/** @param ease least spread of any figure: large while the fit is still far off */
function plateResiduals(
  targets: FitTargets,
  machine: Machine,
  breakdownSlip: number,
  ease: number,
): number[] {
  const rated = fullLoadOf(targets, machine);
  const locked = lockedRotorOf(targets, machine);
  const crest = steadyState(machine, targets.voltage_V, breakdownSlip, false).shaftTorque_Nm;
  const off = (got: number, wanted: number, spread: number): number =>
    (got / wanted - 1) / Math.max(spread, ease);
  return [
    off(amperes(rated), targets.fullLoadCurrent_A, SPREAD.current),
    off(rated.shaftTorque_Nm, targets.torque_Nm, SPREAD.fullLoadTorque),
    off(amperes(locked), targets.lockedRotorCurrent_A, SPREAD.current),
    off(locked.torque_Nm, targets.lockedRotorTorque_Nm, targets.lockedRotorTorqueSpread),
    off(crest, targets.breakdownTorque_Nm, targets.breakdownTorqueSpread),
    off(rated.efficiency, targets.efficiency, targets.efficiencySpread),
    off(locked.powerFactor, targets.lockedRotorPowerFactor, SPREAD.lockedRotorPowerFactor),
  ];
}

/**
 * The circuit that comes nearest to a plate's figures, by weighted least squares.
 *
 * Seven figures (current, torque and efficiency at full load, current, torque and power factor at locked
 * rotor, breakdown torque) against 12 to 14 unknowns, each of which also counts by how far it lies from its
 * usual value; so the answer is one, and leans on the usual machine wherever the plate is silent. The
 * rotor's standstill values are unknowns of their own, which is what lets currents and torques at both
 * ends be met together. The slip of the greatest torque is held while derivatives are taken: the torque
 * is flat there (envelope theorem).
 *
 * @param targets consistent: efficiency x power factor x volts x amperes = power
 * @returns the machine and what it does; whether that is near enough is for the caller to judge
 *
 * Checked by packages/cabinet/test/motor-fit.test.ts.
 */
export function fitMotor(targets: FitTargets): MotorFit {
  const unknowns = unknownsOf(targets);
  const near =
    (ease: number) =>
    (at: readonly number[]): Residuals => {
      const { slip } = breakdown(machineAt(targets, unknowns, at), targets.voltage_V);
      return (x) => [...plateResiduals(targets, machineAt(targets, unknowns, x), slip, ease), ...x];
    };
  let x: readonly number[] = unknowns.map(() => 0);
  let iterations = 0;
  for (const { ease, relativeGain } of STAGES) {
    const found = leastSquares(near(ease), x, { relativeGain });
    x = found.x;
    iterations += found.iterations;
  }
  const machine = machineAt(targets, unknowns, x);
  return {
    machine,
    fullLoad: fullLoadOf(targets, machine),
    lockedRotor: lockedRotorOf(targets, machine),
    breakdownTorque_Nm: breakdown(machine, targets.voltage_V).torque_Nm,
    strain: Math.max(...x.map(Math.abs)),
    iterations,
  };
}
