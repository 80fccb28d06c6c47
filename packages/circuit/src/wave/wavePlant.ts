import { type Jump, type Plant, run, type Standing } from "@startgap/ode";
import { guardTable, type Mode, ownerOf, raises } from "../guardTable.ts";
import { type Layout, layoutOf } from "../layout.ts";
import type { Circuit } from "../parts.ts";
import { plantOf } from "../plant.ts";
import { asStated, type Script } from "../script.ts";
import { burdenWave } from "./waveBurden.ts";
import { controlWave, waveControlStates } from "./waveControl.ts";
import type { Before, WaveModel } from "./waveModel.ts";
import { waveModelOf } from "./waveParts.ts";
import type { SupplyWaveMode } from "./waveSupply.ts";
import { createWaveWalk, type WaveWalk } from "./waveWalk.ts";

/** How a waveform story begins. */
export interface WaveStart {
  readonly script?: Script;
  /** Angle of the supply's voltage at 0 s: v = sqrt(2) V cos(omega t + angle). */
  readonly angle_rad?: number;
  /** True: the supply itself is switched on at 0 s. False: all but the motors has long been live. */
  readonly fromRest?: boolean;
  /** Residual flux of every core, as a fraction of its nominal peak, when switched on from rest. */
  readonly residual?: number;
}

/** A circuit as a plant in the waveform resolution. */
export interface WavePlant extends Plant<Mode> {
  readonly layout: Layout;
  readonly models: readonly WaveModel[];
  /** First state of each part. */
  readonly firstState: readonly number[];
  /** State of each part's speed; -1 for whatever is no motor. */
  readonly speedStates: readonly number[];
  start(how?: WaveStart): Standing<Mode>;
  /** Solves the network at a time and state; the arrays are valid until the next call. */
  solve(t: number, y: readonly number[], mode: Mode): WaveWalk;
}

/**
 * Builds the instantaneous plant of a circuit: the same tree, ohms and rules as the envelope.
 *
 * Not stiff by construction. Only leaves own states: a cable's, fuse's or winding's current is the sum of the
 * currents behind it, so a short cable in front of a small load adds no fast mode; and a leaf that is really a
 * resistance is given the shortest time constant of 0.2 ms (waveBranch.ts). What is left moves in
 * milliseconds, as the waveform itself.
 *
 * @throws RangeError when the circuit is not a tree in feeding order
 */
export function wavePlantOf(circuit: Circuit): WavePlant {
  const layout = layoutOf(circuit);
  const { models, firstState } = wavesOf(circuit, layout);
  const stateNames = models.flatMap((model) => model.stateNames);
  const walk = createWaveWalk(layout.nodes, models.length);
  const controls = circuit.controls?.length ?? 0;
  const carrying = models.filter((_, i) => i < circuit.parts.length || i >= circuit.parts.length + controls);
  const rates = models.filter((model) => model.stateNames.length > 0).map((model) => model.rate);
  const unfolds = carrying.map((model) => model.unfold);
  const folds = carrying.map((model) => model.fold).reverse();
  const owner = new Map([...circuit.parts, ...(circuit.controls ?? [])].map((p, i) => [p.name, i]));
  const watching = guardTable(models);
  let entered: Mode | null = null;

  const known = memory(stateNames.length);

  const fold = (y: readonly number[], mode: Mode): void => {
    if (entered !== mode) {
      for (let i = 0; i < models.length; i++) models[i].enter(mode[i]);
      entered = mode;
    }
    const { folded } = walk;
    for (let i = 0; i < folded.length; i++) folded[i] = 0;
    for (let i = 0; i < folds.length; i++) folds[i](walk, y);
  };
  const unfold = (t: number, y: readonly number[]): void => {
    for (let i = 0; i < unfolds.length; i++) unfolds[i](walk, y, t);
  };
  /** Folds once, whoever asks again about the same state. */
  const foldOnce = (y: readonly number[], mode: Mode): void => {
    if (entered === mode && known.holds(y)) return;
    fold(y, mode);
    known.keep(y);
  };
  const solve = (t: number, y: readonly number[], mode: Mode): WaveWalk => {
    foldOnce(y, mode);
    unfold(t, y);
    return walk;
  };

  return {
    layout,
    models,
    firstState,
    speedStates: models.map((model) => model.speedState),
    stateNames,
    solve,
    start(how = {}) {
      entered = null;
      return startOf(circuit, models, how);
    },
    derivative(t, y, mode, rate) {
      known.forget();
      fold(y, mode);
      unfold(t, y);
      for (let i = 0; i < rates.length; i++) rates[i](walk, y, rate);
    },
    guards: (mode) => watching(mode).guards,
    guardValues(_, y, mode, values) {
      const { owners, offsets } = watching(mode);
      if (owners.length > 0) foldOnce(y, mode);
      for (let i = 0; i < owners.length; i++) owners[i].guardValues(walk, y, values, offsets[i]);
    },
    scheduled: (mode) => models.flatMap((model, i) => [...model.scheduled(mode[i])]),
    raises(event, mode) {
      const part = ownerOf(event, owner);
      return raises(models[part], event, mode[part]);
    },
    reduce(event, y, mode): Jump<Mode> {
      const part = ownerOf(event, owner);
      solve(event.t, y, mode);
      const jumped = y.slice();
      const changed = mode.slice();
      changed[part] = models[part].reduce(event, jumped, mode[part]);
      return { y: jumped, mode: changed };
    },
  };
}

interface Memory {
  holds(y: readonly number[]): boolean;
  keep(y: readonly number[]): void;
  forget(): void;
}

/** The state last folded: guards and samples ask about the same one after the other. */
function memory(states: number): Memory {
  const state = new Float64Array(states);
  let valid = false;
  return {
    holds(y) {
      if (!valid) return false;
      for (let i = 0; i < states; i++) if (y[i] !== state[i]) return false;
      return true;
    },
    keep(y) {
      valid = true;
      for (let i = 0; i < states; i++) state[i] = y[i];
    },
    forget() {
      valid = false;
    },
  };
}

interface Waves {
  readonly models: WaveModel[];
  readonly firstState: number[];
}

/** Parts in feeding order; behind them what is folded first: controls, and what coils draw. */
function wavesOf(circuit: Circuit, layout: Layout): Waves {
  const omega_radps = 2 * Math.PI * layout.places[0].frequency_Hz;
  const models: WaveModel[] = [];
  const firstState: number[] = [];
  let states = 0;
  const take = (model: WaveModel): void => {
    firstState.push(states);
    states += model.stateNames.length;
    models.push(model);
  };
  layout.places.forEach((place, i) => {
    take(waveModelOf(circuit.parts[i], { ...place, state: states, omega_radps }));
  });
  const controls = circuit.controls ?? [];
  const firstControl: number[] = [];
  controls.reduce((first, p) => {
    firstControl.push(first);
    return first + waveControlStates(p);
  }, states);
  const stateOf = (name: string): number => {
    const index = layout.contacts.indexOf(name);
    if (index >= circuit.parts.length) return firstControl[index - circuit.parts.length];
    return models[index].speedState < 0 ? firstState[index] : models[index].speedState;
  };
  layout.controls.forEach((place, k) => {
    take(controlWave(controls[k], { ...place, state: firstControl[k], stateOf }));
  });
  for (const { contactor, place } of layout.burdens) {
    const p = circuit.parts[contactor];
    if (p.is !== "contactor" || !p.coil?.burden) continue;
    take(burdenWave(p, p.coil.burden, contactor, { ...place, state: states, omega_radps }) as WaveModel);
  }
  return { models, firstState };
}

/** The start of a story, from the envelope's phasors before and right after what is switched at 0 s. */
function startOf(circuit: Circuit, models: readonly WaveModel[], how: WaveStart): Standing<Mode> {
  const script = how.script ?? asStated;
  const angle_rad = how.angle_rad ?? 0;
  const envelope = plantOf(circuit);
  const later = plantOf(circuit);
  const before = envelope.start({ ...script, connects_s: () => Number.POSITIVE_INFINITY });
  const { end } = run(later, later.start(script), 0);
  const told: Before = {
    walk: envelope.solve(before.y, before.mode),
    after: later.solve(end.y, end.mode),
    source: before.y,
    angle_rad,
    fromRest: how.fromRest ?? false,
    residual: how.residual ?? 0,
  };
  const modes = models.map((model) => model.scripted(model.start, script));
  modes[0] = { ...(modes[0] as SupplyWaveMode), angle_rad };
  for (let i = 0; i < models.length; i++) models[i].enter(modes[i]);
  return { t: 0, y: models.flatMap((model) => model.states(told)), mode: modes };
}
