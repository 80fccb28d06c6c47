import type { Jump, Plant, Standing } from "@startgap/ode";
import { beforehand } from "./beforehand.ts";
import { coilBurdenModel } from "./coilBurden.ts";
import { controlModelOf } from "./controls.ts";
import { coupledRestOf } from "./coupledRest.ts";
import { guardTable, type Mode, ownerOf, raises } from "./guardTable.ts";
import { foldBack } from "./inverter.ts";
import { type Layout, layoutOf } from "./layout.ts";
import type { LimitedSource, PartModel } from "./model.ts";
import { type Circuit, modelOf } from "./parts.ts";
import { restOf } from "./rest.ts";
import { asStated, type Script } from "./script.ts";
import { createWalk, currentInto, type Walk } from "./walk.ts";

/** A circuit as a plant: the envelope resolution. */
export interface CircuitPlant extends Plant<Mode> {
  readonly layout: Layout;
  readonly models: readonly PartModel[];
  /** The cold start at 0 s under a script. */
  start(script?: Script): Standing<Mode>;
  /** The same standing under another script: what a branch from a shared trunk begins with. */
  rescript(mode: Mode, script: Script): Mode;
  /** Solves the network for a state; the arrays are valid until the next call. */
  solve(y: readonly number[], mode: Mode): Walk;
  /** True when every contact and fuse from the supply to this part, and its own contact, conducts. */
  isLive(part: number, mode: Mode): boolean;
}

/** Repeats of the walk for loads that are not impedances, and the change at which they agree. */
const MOST_WALKS = 200;
const AGREED = 1e-13;

/**
 * Builds the plant of a circuit.
 *
 * Each evaluation folds every part from the leaves to the supply, unfolds back and lets each part with
 * states tell their rates: cost linear in the number of parts, nothing allocated. The network is solved
 * once for guards, rates and records that ask for the same state.
 *
 * The arrays of the walk belong to the plant: one run at a time.
 *
 * @throws RangeError when the circuit is not a tree in feeding order
 */
export function plantOf(circuit: Circuit): CircuitPlant {
  const layout = layoutOf(circuit);
  const models = modelsOf(circuit, layout);
  const walk = createWalk(layout.nodes, models.length);
  const moving = models.filter((model) => model.stateNames.length > 0);
  const folds = models.map((model) => model.fold);
  const unfolds = models.map((model) => model.unfold);
  const rates = moving.map((model) => model.rate);
  const nonlinear = models.filter((model) => model.nonlinear);
  const watching = guardTable(models);
  const owner = new Map([...circuit.parts, ...(circuit.controls ?? [])].map((p, i) => [p.name, i]));
  const network = models.flatMap((model) => model.network);
  const last = new Float64Array(network.length).fill(Number.NaN);
  const { limited } = models[0];
  let entered: Mode | null = null;

  const pass = (y: readonly number[]): void => {
    // A loop: of arrays this short, a call of fill costs more than what it clears.
    for (let i = 0; i < layout.nodes; i++) {
      walk.gr[i] = 0;
      walk.gi[i] = 0;
    }
    for (let i = folds.length - 1; i >= 0; i--) folds[i](walk, y);
    for (let i = 0; i < unfolds.length; i++) unfolds[i](walk, y);
  };
  const agree = (y: readonly number[]): void => {
    pass(y);
    if (nonlinear.length > 0) settle(walk, nonlinear, () => pass(y));
  };

  const isSolved = (y: readonly number[], mode: Mode): boolean => {
    if (entered !== mode) {
      for (let i = 0; i < models.length; i++) models[i].enter(mode[i]);
      entered = mode;
      return false;
    }
    for (let i = 0; i < network.length; i++) if (last[i] !== y[network[i]]) return false;
    return true;
  };

  const solve = (y: readonly number[], mode: Mode): Walk => {
    if (isSolved(y, mode)) return walk;
    for (let i = 0; i < network.length; i++) last[i] = y[network[i]];
    if (limited === null) agree(y);
    else foldBack(limited, (volts) => currentAt(limited, volts, y));
    return walk;
  };

  const currentAt = (source: LimitedSource, volts: number, y: readonly number[]): number => {
    source.give(volts);
    agree(y);
    return currentInto(walk, 0);
  };

  const stateNames = models.flatMap((model) => model.stateNames);
  const cold = models.map((model) => model.start.mode);
  const y0 = models.flatMap((model) => model.start.y);
  const onlyShafts = models.every(
    (model, i) => model.network.length === 0 || circuit.parts[i]?.is === "motor",
  );
  const rescript = (mode: Mode, script: Script): Mode =>
    models.map((model, i) => model.scripted(mode[i], script));
  const start = (script: Script = asStated): Standing<Mode> => ({
    t: 0,
    y: beforehand(models, y0, (y) => solve(y, cold)),
    mode: rescript(cold, script),
  });
  const derivative = (_: number, y: readonly number[], mode: Mode, rate: number[]): void => {
    solve(y, mode);
    for (let i = 0; i < rates.length; i++) rates[i](walk, y, rate);
  };
  const isLive = (part: number, mode: Mode): boolean => {
    for (let i = part; i >= 0; i = layout.feeders[i]) if (!models[i].conducts(mode[i])) return false;
    return true;
  };

  return {
    layout,
    models,
    start,
    rescript,
    stateNames,
    solve,
    isLive,
    derivative,
    guards: (mode) => watching(mode).guards,
    guardValues(_, y, mode, values) {
      const { owners, offsets, electrical } = watching(mode);
      if (electrical || entered !== mode) solve(y, mode);
      for (let i = 0; i < owners.length; i++) owners[i].guardValues(walk, y, values, offsets[i]);
    },
    scheduled: (mode) => models.flatMap((model, i) => [...model.scheduled(mode[i])]),
    raises(event, mode) {
      const part = ownerOf(event, owner);
      return raises(models[part], event, mode[part]);
    },
    reduce(event, y, mode): Jump<Mode> {
      const part = ownerOf(event, owner);
      const jumped = y.slice();
      const changed = mode.slice();
      changed[part] = models[part].reduce(event, jumped, mode[part]);
      return { y: jumped, mode: changed };
    },
    rest: (onlyShafts ? restOf : coupledRestOf)(models, network, derivative, solve),
  };
}

/** Parts in feeding order; behind them what is folded first: controls, and what coils draw. */
function modelsOf(circuit: Circuit, layout: Layout): PartModel[] {
  const parts = layout.places.map((place, i) => modelOf(circuit.parts[i], place));
  const controls = (circuit.controls ?? []).map((p, i) => controlModelOf(p, layout.controls[i]));
  const burdens = layout.burdens.flatMap(({ contactor, place }) => {
    const p = circuit.parts[contactor];
    return p.is === "contactor" && p.coil?.burden
      ? [coilBurdenModel(p, p.coil.burden, contactor, place)]
      : [];
  });
  return [...parts, ...controls, ...burdens];
}

/** Repeats the walk until every load that is not an impedance agrees with its own voltage. */
function settle(walk: Walk, nonlinear: readonly PartModel[], pass: () => void): void {
  for (let count = 0; count < MOST_WALKS; count++) {
    let change = 0;
    for (const model of nonlinear) change = Math.max(change, model.adjust(walk));
    if (change <= AGREED) return;
    pass();
  }
}
