import { type Machine, steadyState } from "@startgap/circuit";

/** One steady operating point. */
export interface SlipRow {
  readonly slip: number;
  readonly speed_rpm: number;
  /** Null without a start switch. */
  readonly startSwitch: "closed" | "open" | null;
  readonly current_A: number;
  /** In the air gap, positive forward. */
  readonly torque_Nm: number;
  /** What is left of it after windage and friction. */
  readonly shaftTorque_Nm: number;
  readonly powerFactor: number;
  readonly efficiency: number;
}

/** From rest by twentieths, and finer where a motor runs. */
const SLIPS = [
  ...Array.from({ length: 18 }, (_, k) => 1 - k / 20),
  ...Array.from({ length: 11 }, (_, k) => (10 - k) / 100),
];

function row(machine: Machine, voltage_V: number, slip: number, closed: boolean): SlipRow {
  const point = steadyState(machine, voltage_V, slip, closed);
  return {
    slip,
    speed_rpm: point.speed_rpm,
    startSwitch: machine.startSwitch === null ? null : closed ? "closed" : "open",
    current_A: Math.hypot(point.line_A.re, point.line_A.im),
    torque_Nm: point.torque_Nm,
    shaftTorque_Nm: point.shaftTorque_Nm,
    powerFactor: point.powerFactor,
    efficiency: point.efficiency,
  };
}

/**
 * The motor from rest to synchronous speed; where its switch opens, both sides of the step.
 *
 * @param voltage_V rated voltage when absent
 * @param slips descending from 1 to 0
 */
export function slipTable(machine: Machine, voltage_V = machine.voltage_V, slips = SLIPS): SlipRow[] {
  const at = (slip: number, closed: boolean): SlipRow => row(machine, voltage_V, slip, closed);
  if (machine.startSwitch === null) return slips.map((slip) => at(slip, true));
  const opens = 1 - machine.startSwitch.opens;
  return [
    ...slips.filter((slip) => slip > opens).map((slip) => at(slip, true)),
    at(opens, true),
    at(opens, false),
    ...slips.filter((slip) => slip < opens).map((slip) => at(slip, false)),
  ];
}
