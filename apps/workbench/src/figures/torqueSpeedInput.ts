import { loadTorque_Nm, type MotorParameters, steadyState, synchronousSpeed_radps } from "@startgap/circuit";
import type { SpeedCurve, TorqueSpeedInput } from "@startgap/figures";

const STEPS = 60;
const RPM = 30 / Math.PI;

/** Slips from rest to synchronous speed; at the start switch two, with the switch closed and open. */
function slipsOf({ machine }: MotorParameters): { readonly slip: number; readonly closed: boolean }[] {
  const opens = 1 - (machine.startSwitch?.opens ?? 1);
  const grid = Array.from({ length: STEPS }, (_, k) => 1 - k / STEPS);
  if (machine.startSwitch === null) return grid.map((slip) => ({ slip, closed: true }));
  return [
    ...grid.filter((slip) => slip > opens).map((slip) => ({ slip, closed: true })),
    { slip: opens, closed: true },
    { slip: opens, closed: false },
    ...grid.filter((slip) => slip < opens).map((slip) => ({ slip, closed: false })),
  ];
}

function curveAt(motor: MotorParameters, voltage_V: number, says: string): SpeedCurve {
  const points = slipsOf(motor).map(({ slip, closed }) =>
    steadyState(motor.machine, voltage_V, slip, closed),
  );
  return {
    says,
    speed_rpm: points.map((point) => point.speed_rpm),
    torque_Nm: points.map((point) => point.shaftTorque_Nm),
    current_A: points.map((point) => Math.hypot(point.line_A.re, point.line_A.im)),
  };
}

/**
 * A motor against its load, at rated voltage and at the lowest that it saw.
 *
 * @param lowest_V null when it was never connected
 */
export function torqueSpeedInput(motor: MotorParameters, lowest_V: number | null): TorqueSpeedInput {
  const { machine, drives } = motor;
  const synchronous = synchronousSpeed_radps(machine);
  const speeds = Array.from({ length: STEPS + 1 }, (_, k) => (k / STEPS) * synchronous);
  const sags = lowest_V !== null && lowest_V < 0.995 * machine.voltage_V;
  return {
    part: motor.name,
    nominal: curveAt(motor, machine.voltage_V, `${Math.round(machine.voltage_V)} V`),
    sagged: sags ? curveAt(motor, lowest_V, `sagged to ${Math.round(lowest_V)} V`) : null,
    load: {
      speed_rpm: speeds.map((speed) => speed * RPM),
      torque_Nm: speeds.map((speed) => loadTorque_Nm(drives, speed, synchronous)),
    },
    switchOpens_rpm: machine.startSwitch === null ? null : machine.startSwitch.opens * synchronous * RPM,
  };
}
