import {
  atFrequency,
  blankMachineAt,
  type CircuitPlant,
  type Mode,
  type MotorMode,
  machineAdmittance,
  steadyState,
  synchronousSpeed_radps,
  type Walk,
} from "@startgap/circuit";
import type { Flow, Plant, Rest } from "@startgap/ode";

/** Heat of the small parts in a box: of a fuse with the square of its current, of a coil while it holds. */
export interface SmallLoss {
  readonly part: number;
  readonly ohm: number;
  readonly held_W: number;
}

/** Where each sum stands, counted from the first. */
export interface SumPlaces {
  readonly supply_J: 0;
  readonly lost_J: 1;
  readonly shaft_J: 2;
  readonly small_J: 3;
  /** By motor, in the order of the circuit: heat lost in it; seconds of its locked-rotor start winding current. */
  readonly motor_J: number;
  readonly startWinding_s: number;
  /** By transformer: winding loss; square of the voltage at its input over time. */
  readonly winding_J: number;
  readonly square_V2s: number;
  readonly count: number;
}

export interface Summed {
  readonly plant: Plant<Mode>;
  /** Index of the first sum among the states. */
  readonly first: number;
}

/** Motors and transformers of a circuit, and where their sums stand. */
export interface SumLayout {
  readonly motors: readonly number[];
  readonly wound: readonly number[];
  readonly at: SumPlaces;
}

export function sumLayoutOf(plant: CircuitPlant, wound: readonly string[]): SumLayout {
  const { parts } = plant.layout.circuit;
  const motors = parts.flatMap((p, i) => (p.is === "motor" ? [i] : []));
  const coils = parts.flatMap((p, i) => (wound.includes(p.name) ? [i] : []));
  const [m, w] = [motors.length, coils.length];
  const at = {
    supply_J: 0,
    lost_J: 1,
    shaft_J: 2,
    small_J: 3,
    motor_J: 4,
    startWinding_s: 4 + m,
    winding_J: 4 + 2 * m,
    square_V2s: 4 + 2 * m + w,
    count: 4 + 2 * m + 2 * w,
  } as const;
  return { motors, wound: coils, at };
}

/** Long enough for every speed to have come to its end, s. */
const SETTLED_s = 1e6;

/**
 * The plant with sums over time as further states: what the supply gave, what was lost where, how long start windings
 * carried their locked-rotor current. The solver keeps them to its tolerance as it keeps all states, so that a start's
 * heat does not hang on how often it is looked at; at rest they go on in straight lines.
 *
 * Checked by packages/study/test/day/sums.test.ts against the power balance, and against fine steps.
 */
export function summed(base: CircuitPlant, layout: SumLayout, small: readonly SmallLoss[]): Summed {
  const first = base.layout.states;
  const write = powersOf(base, layout, small);
  const { count } = layout.at;
  const names = Array.from({ length: count }, (_, k) => `sum ${k + 1} of the day`);
  const rest: Rest<Mode> | undefined =
    base.rest &&
    ((t0, y0, mode, tolerance): Flow | null => {
      const flow = base.rest?.(t0, y0, mode, tolerance) ?? null;
      if (flow === null) return null;
      const end = y0.slice();
      flow(t0 + SETTLED_s, end);
      const power = end.slice();
      write(base.solve(end, mode), end, mode, power, first);
      return (t, y) => {
        flow(t, y);
        for (let k = first; k < first + count; k++) y[k] = y0[k] + power[k] * (t - t0);
      };
    });
  return {
    first,
    plant: {
      ...base,
      stateNames: [...base.stateNames, ...names],
      derivative(t, y, mode, rate) {
        base.derivative(t, y, mode, rate);
        write(base.solve(y, mode), y, mode, rate, first);
      },
      rest,
    },
  };
}

type Write = (w: Walk, y: readonly number[], mode: Mode, rate: number[], first: number) => void;

function powersOf(base: CircuitPlant, layout: SumLayout, small: readonly SmallLoss[]): Write {
  const { motors, wound, at } = layout;
  const { models } = base;
  const { closed } = base.layout.contacts;
  const starting = motors.map((i) => startWindingOf(base, i));
  const inputs = wound.map((i) => base.layout.places[i].at);
  const conductance = wound.map((i) => {
    const p = base.layout.circuit.parts[i];
    return p.is === "transformer" || p.is === "autotransformer" ? p.excitation.conductance_S : 0;
  });
  const rank = new Map(motors.map((i, k) => [i, k]));
  const coil = new Map(wound.map((i, k) => [i, k]));
  return (w, y, mode, rate, first) => {
    for (let k = 0; k < at.count; k++) rate[first + k] = 0;
    for (let i = 0; i < models.length; i++) {
      const { lost_W, shaft_W, given_W } = models[i].power(w, y);
      rate[first + at.supply_J] += given_W ?? 0;
      rate[first + at.lost_J] += lost_W;
      rate[first + at.shaft_J] += shaft_W;
      const motor = rank.get(i);
      if (motor !== undefined) rate[first + at.motor_J + motor] = lost_W;
      const c = coil.get(i);
      if (c === undefined) continue;
      const square = w.vr[inputs[c]] ** 2 + w.vi[inputs[c]] ** 2;
      rate[first + at.square_V2s + c] = square;
      rate[first + at.winding_J + c] = Math.max(0, lost_W - conductance[c] * square);
    }
    for (const { part, ohm, held_W } of small)
      rate[first + at.small_J] += ohm * (w.ir[part] ** 2 + w.ii[part] ** 2) + closed[part] * held_W;
    for (let k = 0; k < motors.length; k++)
      rate[first + at.startWinding_s + k] = starting[k](w, y, mode[motors[k]] as MotorMode);
  };
}

/** Square of the start winding's current over that at rest on rated voltage. */
function startWindingOf(
  base: CircuitPlant,
  i: number,
): (w: Walk, y: readonly number[], mode: MotorMode) => number {
  const p = base.layout.circuit.parts[i];
  if (p.is !== "motor" || p.machine.startSwitch === null) return () => 0;
  const place = base.layout.places[i];
  const machine = atFrequency(p.machine, place.frequency_Hz);
  const still = steadyState(machine, machine.voltage_V, 1, true).auxiliary_A;
  const locked = still.re ** 2 + still.im ** 2;
  const admittance = machineAdmittance(machine);
  const synchronous = synchronousSpeed_radps(machine);
  const now = blankMachineAt();
  return (w, y, mode) => {
    if (!mode.connected || !mode.startSwitch || locked === 0) return 0;
    admittance(1 - y[place.state] / synchronous, true, now);
    const square = w.vr[place.at] ** 2 + w.vi[place.at] ** 2;
    return (square * (now.auxiliaryR ** 2 + now.auxiliaryI ** 2)) / locked;
  };
}
