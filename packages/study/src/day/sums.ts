import {
  atFrequency,
  auxiliaryBranch,
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
  /** By motor, in the order of the circuit: heat lost in it, without its capacitors; seconds of its locked-rotor start winding current. */
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
  const { parts, controls = [] } = base.layout.circuit;
  const beside = parts.length + controls.length;
  // Contacts and controls lose nothing; behind them stand what coils draw.
  const using = base.models.flatMap((model, i) => {
    const is = parts[i]?.is;
    const none = is === "contactor" || is === "delay relay" || (i >= parts.length && i < beside);
    return none ? [] : [{ model, motor: motors.indexOf(i), coil: wound.indexOf(i) }];
  });
  const { closed } = base.layout.contacts;
  const starting = motors.map((i, k) => motorSums(base, i, at.motor_J + k, at.startWinding_s + k));
  const inputs = wound.map((i) => base.layout.places[i].at);
  const conductance = wound.map((i) => {
    const p = base.layout.circuit.parts[i];
    return p.is === "transformer" || p.is === "autotransformer" ? p.excitation.conductance_S : 0;
  });
  return (w, y, mode, rate, first) => {
    for (let k = 0; k < at.count; k++) rate[first + k] = 0;
    for (const { model, motor, coil } of using) {
      const { lost_W, shaft_W, given_W } = model.power(w, y);
      rate[first + at.supply_J] += given_W ?? 0;
      rate[first + at.lost_J] += lost_W;
      rate[first + at.shaft_J] += shaft_W;
      if (motor >= 0) starting[motor](w, y, mode[motors[motor]] as MotorMode, lost_W, rate, first);
      if (coil < 0) continue;
      const square = w.vr[inputs[coil]] ** 2 + w.vi[inputs[coil]] ** 2;
      rate[first + at.square_V2s + coil] = square;
      rate[first + at.winding_J + coil] = Math.max(0, lost_W - conductance[coil] * square);
    }
    for (const { part, ohm, held_W } of small)
      rate[first + at.small_J] += ohm * (w.ir[part] ** 2 + w.ii[part] ** 2) + closed[part] * held_W;
  };
}

type MotorSums = (
  w: Walk,
  y: readonly number[],
  mode: MotorMode,
  lost_W: number,
  rate: number[],
  first: number,
) => void;

/** What is lost in a motor but not in its capacitors; and the square of its start winding's current over that at rest. */
function motorSums(base: CircuitPlant, i: number, heat: number, winding: number): MotorSums {
  const p = base.layout.circuit.parts[i];
  if (p.is !== "motor" || p.machine.auxiliary === null)
    return (_w, _y, _mode, lost_W, rate, first) => {
      rate[first + heat] = lost_W;
    };
  const place = base.layout.places[i];
  const machine = atFrequency(p.machine, place.frequency_Hz);
  const still = steadyState(machine, machine.voltage_V, 1, true).auxiliary_A;
  const locked = still.re ** 2 + still.im ** 2;
  const admittance = machineAdmittance(machine);
  const synchronous = synchronousSpeed_radps(machine);
  const own_ohm = p.machine.auxiliary.r_ohm;
  const capacitor_ohm = [false, true].map((closed) => {
    const branch = auxiliaryBranch(machine, closed);
    return branch === null ? 0 : branch.r_ohm - own_ohm;
  });
  const hasSwitch = machine.startSwitch !== null;
  const now = blankMachineAt();
  return (w, y, { connected, startSwitch }, lost_W, rate, first) => {
    rate[first + heat] = lost_W;
    const ohm = capacitor_ohm[startSwitch ? 1 : 0];
    if (!connected || !(startSwitch || ohm > 0)) return;
    admittance(1 - y[place.state] / synchronous, startSwitch, now);
    const square = w.vr[place.at] ** 2 + w.vi[place.at] ** 2;
    const current2 = square * (now.auxiliaryR ** 2 + now.auxiliaryI ** 2);
    rate[first + heat] -= ohm * current2;
    if (hasSwitch && startSwitch && locked > 0) rate[first + winding] = current2 / locked;
  };
}
