import {
  type Circuit,
  type CircuitPlant,
  currentInto,
  type Mode,
  type MotorMode,
  magnitude,
  plantOf,
  synchronousSpeed_radps,
} from "@startgap/circuit";
import { run, type Standing } from "@startgap/ode";
import { allClosed } from "./closed.ts";

/** The network of a cabinet in one steady situation. */
export interface Situation {
  readonly current_A: (part: string) => number;
  /** At a part's output, an autotransformer's first leg, or the terminals of a motor or load. */
  readonly voltage_V: (part: string) => number;
  /** At a part's input. */
  readonly input_V: (part: string) => number;
  /** Power turned to heat in a part. */
  readonly lost_W: (part: string) => number;
}

export interface Situations {
  readonly running: Situation;
  /** By motor: it stands still with its start winding in, the others run. */
  readonly standing: ReadonlyMap<string, Situation>;
  /** Every motor stands still at once. */
  readonly allStanding: Situation;
  /** Everything that is no motor, motors off. */
  readonly idle: Situation;
}

/** Long enough for a motor that is near its speed to settle, s. */
const SETTLING_s = 10;
const NEAR = 0.96;

/**
 * Steady situations of a cabinet with every contact closed: everything running, each motor held still among the
 * others that run, all held still, motors off.
 *
 * Running speeds are where each motor settles from 96 % of synchronous speed, start switches open.
 */
export function situationsOf(circuit: Circuit): Situations {
  const plant = plantOf(allClosed(circuit));
  const motors = circuit.parts.filter((p) => p.is === "motor").map((p) => p.name);
  const from = withMotors(plant, motors, true);
  const { end } = run(plant, from, SETTLING_s, { tolerance: 1e-6 });
  const still = (names: readonly string[]): Situation => read(plant, heldStill(plant, end, names));
  return {
    running: read(plant, end),
    standing: new Map(motors.map((name) => [name, still([name])])),
    allStanding: still(motors),
    idle: read(plant, withMotors(plant, motors, false)),
  };
}

const isMotor = (plant: CircuitPlant, i: number): boolean => plant.layout.circuit.parts[i]?.is === "motor";

function withMotors(plant: CircuitPlant, motors: readonly string[], on: boolean): Standing<Mode> {
  const { y: y0, mode: cold } = plant.start();
  const y = y0.slice();
  const mode = cold.map((own, i) => {
    const p = plant.layout.circuit.parts[i];
    if (p?.is !== "motor" || !motors.includes(p.name)) return own;
    const ratio = plant.layout.places[i].frequency_Hz / p.machine.frequency_Hz;
    y[plant.layout.places[i].state] = on ? NEAR * ratio * synchronousSpeed_radps(p.machine) : 0;
    return { ...(own as MotorMode), connected: on, startSwitch: false, turning: on };
  });
  return { t: 0, y, mode };
}

function heldStill(plant: CircuitPlant, from: Standing<Mode>, names: readonly string[]): Standing<Mode> {
  const y = from.y.slice();
  const mode = from.mode.map((own, i) => {
    if (!isMotor(plant, i) || !names.includes(plant.layout.circuit.parts[i].name)) return own;
    y[plant.layout.places[i].state] = 0;
    return { ...(own as MotorMode), startSwitch: true, turning: false };
  });
  return { ...from, y, mode };
}

function read(plant: CircuitPlant, { y, mode }: Standing<Mode>): Situation {
  const walk = plant.solve(y, mode);
  const { circuit, places, told } = plant.layout;
  const index = new Map(circuit.parts.map((p, i) => [p.name, i]));
  const amperes = circuit.parts.map((_, i) => currentInto(walk, i));
  const volts = told.map((node) => magnitude(walk, node));
  const fed = places.map(({ at }) => (at < 0 ? 0 : magnitude(walk, at)));
  const lost = circuit.parts.map((_, i) => plant.models[i].power(walk, y).lost_W);
  const of =
    (list: readonly number[]) =>
    (part: string): number =>
      list[index.get(part) ?? -1] ?? 0;
  return { current_A: of(amperes), voltage_V: of(volts), input_V: of(fed), lost_W: of(lost) };
}
