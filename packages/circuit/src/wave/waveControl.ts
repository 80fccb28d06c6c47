import {
  type ControlParameters,
  type ControlPlacement,
  controlModelOf,
  controlStatesOf,
} from "../controls.ts";
import { plainWave, type WaveModel } from "./waveModel.ts";
import { waveSense } from "./waveSense.ts";

/** How many states a control owns in the waveform resolution: a timer feels its voltage through two lags. */
export const waveControlStates = (p: ControlParameters): number =>
  controlStatesOf(p) + (p.is === "lock-out timer" ? 2 : 0);

/** A control carries no power: it is the envelope's own, told rms values. */
export function controlWave(p: ControlParameters, place: ControlPlacement): WaveModel {
  const rules = controlModelOf(p, place);
  const nodes = p.is === "lock-out timer" ? [place.nodeOf(p.watches, p.leg)] : [];
  const sense = waveSense(p.name, { nodes, parts: [] }, place.state + rules.stateNames.length);
  return {
    ...plainWave,
    stateNames: [...rules.stateNames, ...sense.stateNames],
    start: rules.start.mode,
    states: (before) => [...rules.start.y, ...sense.states(before)],
    enter: rules.enter,
    fold: () => {},
    unfold: () => {},
    rate(w, y, rate) {
      rules.rate(sense.reading(y), y, rate);
      sense.rate(w, y, rate);
    },
    guards: rules.guards,
    guardValues: (_, y, values, offset) => rules.guardValues(sense.reading(y), y, values, offset),
    scheduled: rules.scheduled,
    reduce: rules.reduce,
    scripted: rules.scripted,
  };
}
