import type { Event } from "@startgap/ode";
import type { PartGuard, Placement, PowerUse } from "../model.ts";
import type { Script } from "../script.ts";
import type { Walk } from "../walk.ts";
import type { WaveWalk } from "./waveWalk.ts";

/** Where a part stands in the instantaneous walk, and the angular frequency it is told in. */
export interface WavePlacement extends Placement {
  readonly omega_radps: number;
}

/** The steady phasors at the start of a story, and the angle of the supply's voltage at 0 s. */
export interface Before {
  /** Envelope walk of the network before anything is switched. */
  readonly walk: Walk;
  /** The same right after all that is switched at 0 s. */
  readonly after: Walk;
  /** The envelope's states of the supply before the story. */
  readonly source: readonly number[];
  /** The supply's voltage is sqrt(2) E cos(omega t + angle). */
  readonly angle_rad: number;
  /** True: the supply is switched on at 0 s; nothing flowed before. */
  readonly fromRest: boolean;
  /** Residual flux of every core as a fraction of its nominal peak, when switched on from rest. */
  readonly residual: number;
}

/** A part in instantaneous form; the counterpart of the envelope's part model. */
export interface WaveModel<S = unknown> {
  readonly stateNames: readonly string[];
  readonly start: S;
  /** Index of the speed among all states; -1 for whatever is no motor. */
  readonly speedState: number;
  /** Initial values of its own states. */
  states(before: Before): number[];
  enter(mode: S): void;
  fold(w: WaveWalk, y: readonly number[]): void;
  unfold(w: WaveWalk, y: readonly number[], t: number): void;
  rate(w: WaveWalk, y: readonly number[], rate: number[]): void;
  guards(mode: S): readonly PartGuard[];
  /** From the state and what was folded of it: no guard needs a voltage of this very moment. */
  guardValues(w: WaveWalk, y: readonly number[], values: Float64Array, offset: number): void;
  scheduled(mode: S): readonly Event[];
  reduce(event: Event, y: number[], mode: S): S;
  scripted(mode: S, script: Script): S;
  /** Instantaneous power: lost, at the shaft, and into fields, capacitors and the rotor's motion. */
  power(w: WaveWalk, y: readonly number[]): PowerUse;
}

const none: readonly never[] = [];
const noPower: PowerUse = { lost_W: 0, shaft_W: 0, stored_W: 0 };

/** What most parts do not do. */
export const plainWave = {
  stateNames: none as readonly string[],
  start: null,
  speedState: -1,
  states: () => [] as number[],
  enter: () => {},
  rate: () => {},
  guards: () => none,
  guardValues: () => {},
  scheduled: () => none,
  reduce: () => null,
  scripted: <S>(mode: S): S => mode,
  power: () => noPower,
} satisfies Omit<WaveModel<null>, "fold" | "unfold">;

/** Power in a series R-L that carries the current into a part. */
export function inSeries(w: WaveWalk, part: number, r: number, l: number): PowerUse {
  const i = w.into[part];
  return { lost_W: r * i * i, shaft_W: 0, stored_W: l * i * w.rate[part] };
}
