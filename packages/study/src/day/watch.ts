import {
  type CircuitPlant,
  type Mode,
  type MotorMode,
  magnitude,
  meltFraction,
  synchronousSpeed_radps,
} from "@startgap/circuit";
import type { Recorder } from "@startgap/ode";

/** What a motor is doing. */
export type Phase = "off" | "starting" | "up";

/** One start as it goes on. */
export interface StartSeen {
  readonly motor: number;
  readonly time_s: number;
  /** Sum of the heat lost in it at its beginning. */
  readonly from_J: number;
  readonly air_C: number;
  startWinding_s: number;
  up: boolean;
  /** 0 while it has not come up, and where it was still up as it was connected again. */
  runUp_s: number;
  energy_J: number;
  /** By fuse: highest melt fraction until the next start. */
  readonly melt: number[];
}

/** Motors, fuses and receivers as they are watched, and what happens to them. */
export interface Watch {
  readonly recorder: Recorder<Mode>;
  readonly phases: readonly Phase[];
  readonly turning: readonly boolean[];
  readonly starts: readonly StartSeen[];
  /** When a motor's contacts have opened or closed: asked for a row. */
  readonly stops: readonly { readonly motor: number; readonly time_s: number }[];
}

export interface Watched {
  /** Indices among the parts. */
  readonly motors: readonly number[];
  readonly fuses: readonly number[];
  /** Heat lost in a motor since midnight. */
  readonly heat_J: (k: number, y: readonly number[]) => number;
  /** Asked for a row of temperatures: something has changed. */
  readonly row: (t: number, y: readonly number[]) => void;
  /** Air around the fuses. */
  readonly air_C: () => number;
}

/** A start is over once its motor turns at this part of synchronous speed with its start winding out. */
const UP = 0.9;
/** A motor with less than this has no voltage. */
const LIVE_V = 1;

/** Watches starts from step to step; rows are asked for where a motor changes what it does. */
export function watchOf(plantNow: () => CircuitPlant, seen: Watched): Watch {
  const phases: Phase[] = seen.motors.map(() => "off");
  const turning = seen.motors.map(() => false);
  const starts: StartSeen[] = [];
  const stops: { motor: number; time_s: number }[] = [];
  const current: (StartSeen | null)[] = seen.motors.map(() => null);
  const windingIn = seen.motors.map(() => false);
  let last_s = 0;

  const begin = (k: number, t: number, y: readonly number[]): void => {
    const from_J = seen.heat_J(k, y);
    const one: StartSeen = {
      ...{ motor: k, time_s: t, from_J, air_C: seen.air_C() },
      ...{ startWinding_s: 0, up: false, runUp_s: 0, energy_J: 0, melt: seen.fuses.map(() => 0) },
    };
    current[k] = one;
    starts.push(one);
  };
  const end = (k: number, t: number, y: readonly number[], up: boolean): void => {
    const one = current[k];
    if (one === null) return;
    one.energy_J = seen.heat_J(k, y) - one.from_J;
    one.up = up;
    if (up) one.runUp_s = t - one.time_s;
  };

  const motorAt = (plant: CircuitPlant, k: number, t: number, y: readonly number[], mode: Mode): void => {
    const i = seen.motors[k];
    const p = plant.layout.circuit.parts[i];
    if (p.is !== "motor") return;
    const place = plant.layout.places[i];
    const { connected, startSwitch, turning: turns } = mode[i] as MotorMode;
    const live = connected && magnitude(plant.solve(y, mode), place.at) > LIVE_V;
    const ratio = place.frequency_Hz / p.machine.frequency_Hz;
    const share = y[place.state] / (ratio * synchronousSpeed_radps(p.machine));
    const inCircuit = live && startSwitch && p.machine.startSwitch !== null;
    const one = current[k];
    if (one !== null && windingIn[k] && inCircuit) one.startWinding_s += t - last_s;
    windingIn[k] = inCircuit;
    const next: Phase = !live ? "off" : share >= UP && !inCircuit ? "up" : "starting";
    const was = phases[k];
    if (next !== was && !(was === "up" && next === "starting" && !inCircuit)) {
      if (was === "starting") end(k, t, y, next === "up");
      seen.row(t, y);
      if (next === "starting" || (next === "up" && was === "off")) begin(k, t, y);
      if (next === "up" && was === "off") end(k, t, y, true);
      if (next === "off") stops.push({ motor: k, time_s: t });
      phases[k] = next;
      seen.row(t, y);
    }
    turning[k] = turns;
  };

  const fusesAt = (plant: CircuitPlant, y: readonly number[]): void => {
    const latest = starts[starts.length - 1];
    if (latest === undefined) return;
    for (let f = 0; f < seen.fuses.length; f++) {
      const p = plant.layout.circuit.parts[seen.fuses[f]];
      if (p.is !== "fuse" || p.melt === null) continue;
      const melt = meltFraction(y, plant.layout.places[seen.fuses[f]].state, p.melt.share.length);
      latest.melt[f] = Math.max(latest.melt[f], melt);
    }
  };

  return {
    phases,
    turning,
    starts,
    stops,
    recorder: {
      interior: false,
      sample(t, y, mode) {
        const plant = plantNow();
        for (let k = 0; k < seen.motors.length; k++) motorAt(plant, k, t, y, mode);
        fusesAt(plant, y);
        last_s = t;
      },
    },
  };
}
