import type { Circuit } from "@startgap/circuit";
import type { CaseReport } from "../results.ts";

/** The lowest voltage of any motor while connected, of its rated one; null where none is connected. */
export function lowestMotor_percent({ motors }: CaseReport, circuit: Circuit): number | null {
  const rated = new Map(
    circuit.parts.flatMap((p) => (p.is === "motor" ? [[p.name, p.machine.voltage_V]] : [])),
  );
  return lowest(
    motors.flatMap(({ part, lowestVoltage_V }) =>
      lowestVoltage_V === null ? [] : [(100 * lowestVoltage_V) / (rated.get(part) ?? lowestVoltage_V)],
    ),
  );
}

/** The lowest voltage of any receptacle, of nominal; null without one. */
export const lowestPoint_percent = ({ points }: CaseReport): number | null =>
  lowest(points.map(({ lowestVoltage_V, nominal_V }) => (100 * lowestVoltage_V) / nominal_V));

/** The lowest of all voltages: of motors while connected, and of receptacles. */
export const lowestVoltage_percent = (report: CaseReport, circuit: Circuit): number =>
  lowest([lowestMotor_percent(report, circuit) ?? 100, lowestPoint_percent(report) ?? 100]) ?? 100;

/** The lowest of some percentages; null of nothing. */
export const lowest = (values: readonly number[]): number | null =>
  values.length === 0 ? null : Math.min(...values);
