import type { Circuit } from "@startgap/circuit";
import type { CaseReport } from "../results.ts";

/** The lowest of all voltages: of motors while connected, of their rated one, and of receptacles, of nominal. */
export function lowestVoltage_percent(report: CaseReport, circuit: Circuit): number {
  const rated = new Map(
    circuit.parts.flatMap((p) => (p.is === "motor" ? [[p.name, p.machine.voltage_V]] : [])),
  );
  const motors = report.motors.map(({ part, lowestVoltage_V }) =>
    lowestVoltage_V === null ? 100 : (100 * lowestVoltage_V) / (rated.get(part) ?? lowestVoltage_V),
  );
  const points = report.points.map(({ lowestVoltage_V, nominal_V }) => (100 * lowestVoltage_V) / nominal_V);
  return Math.min(...motors, ...points);
}
