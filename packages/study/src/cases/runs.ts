import { type CircuitPlant, type Mode, type MotorMode, synchronousSpeed_radps } from "@startgap/circuit";

/** A motor that is below this fraction of synchronous speed does not run. */
const RUNS_ABOVE = 0.75;

/** Out of its start winding, and near its speed. */
export function runs(plant: CircuitPlant, part: number, y: readonly number[], mode: Mode): boolean {
  const p = plant.layout.circuit.parts[part];
  if (p.is !== "motor") return false;
  const { state, frequency_Hz } = plant.layout.places[part];
  const synchronous = (synchronousSpeed_radps(p.machine) * frequency_Hz) / p.machine.frequency_Hz;
  const outOfStart = p.machine.startSwitch === null || !(mode[part] as MotorMode).startSwitch;
  return outOfStart && y[state] >= RUNS_ABOVE * synchronous;
}
