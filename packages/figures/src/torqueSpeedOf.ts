/** What the torque-speed plot of one motor of a checked cabinet shows. */

import { loadTorque_Nm, type MotorParameters, steadyState, synchronousSpeed_radps } from "@startgap/circuit";
import type { CheckReport } from "@startgap/study";
import { volts } from "./format.ts";
import type { SpeedCurve } from "./settlingSpeed.ts";
import type { TorqueSpeedInput } from "./torqueSpeed.ts";

/** A hundred steps from rest to synchronous speed. */
const SLIPS = Array.from({ length: 101 }, (_, k) => (100 - k) / 100);
const RPM_PER_RADPS = 30 / Math.PI;

/** A sag smaller than this draws the same curve twice. */
const WORTH_DRAWING = 0.005;

/** From rest up; where the start switch opens, both sides of the step. */
function operatingPoints({ machine: { startSwitch } }: MotorParameters): { slip: number; closed: boolean }[] {
  if (startSwitch === null) return SLIPS.map((slip) => ({ slip, closed: true }));
  const opens = 1 - startSwitch.opens;
  return [
    ...SLIPS.filter((slip) => slip > opens).map((slip) => ({ slip, closed: true })),
    { slip: opens, closed: true },
    { slip: opens, closed: false },
    ...SLIPS.filter((slip) => slip < opens).map((slip) => ({ slip, closed: false })),
  ];
}

/** Torque at the shaft, which is what the load feels. */
function curveAt(motor: MotorParameters, voltage_V: number, says: string): SpeedCurve {
  const points = operatingPoints(motor).map(({ slip, closed }) =>
    steadyState(motor.machine, voltage_V, slip, closed),
  );
  return {
    says,
    speed_rpm: points.map((point) => point.speed_rpm),
    torque_Nm: points.map((point) => point.shaftTorque_Nm),
    current_A: points.map((point) => Math.hypot(point.line_A.re, point.line_A.im)),
  };
}

/** The lowest voltage at a motor's terminals in any case of a check, V; null when it was never switched on. */
export function lowestVoltageOf(part: string, { cases }: Pick<CheckReport, "cases">): number | null {
  const all = cases
    .flatMap((one) => one.motors.filter((motor) => motor.part === part).map((motor) => motor.lowestVoltage_V))
    .filter((value) => value !== null);
  return all.length === 0 ? null : Math.min(...all);
}

/**
 * A motor's torque and current over speed at its rated voltage and at a lower one, against what its load asks.
 *
 * @param lowest_V as `lowestVoltageOf` gives it; null draws the rated voltage alone
 */
export function torqueSpeedOf(motor: MotorParameters, lowest_V: number | null): TorqueSpeedInput {
  const { machine, drives, name } = motor;
  const synchronous = synchronousSpeed_radps(machine);
  const nominal = curveAt(motor, machine.voltage_V, volts(machine.voltage_V));
  const sags = lowest_V !== null && lowest_V < (1 - WORTH_DRAWING) * machine.voltage_V;
  return {
    part: name,
    nominal,
    sagged: sags ? curveAt(motor, lowest_V, `sagged, ${volts(lowest_V)}`) : null,
    load: {
      speed_rpm: nominal.speed_rpm,
      torque_Nm: nominal.speed_rpm.map((rpm) => loadTorque_Nm(drives, rpm / RPM_PER_RADPS, synchronous)),
    },
    switchOpens_rpm:
      machine.startSwitch === null ? null : machine.startSwitch.opens * synchronous * RPM_PER_RADPS,
  };
}
