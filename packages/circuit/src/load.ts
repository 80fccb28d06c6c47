import type { Place } from "./conventions.ts";
import { type PartModel, type Placement, plain } from "./model.ts";
import { magnitude } from "./walk.ts";

/** A steady load stated by its power at nominal voltage. */
export interface LoadParameters extends Place {
  readonly is: "load";
  readonly nominal_V: number;
  readonly power_W: number;
  /** Positive for a lagging (inductive) load. */
  readonly reactive_var: number;
  /** What stays constant when the voltage moves. */
  readonly holds: "impedance" | "current" | "power";
}

/** Below this fraction of nominal voltage a constant current or power load is taken as an impedance. */
export const HOLDS_DOWN_TO = 0.7;

/**
 * A load as an admittance. Constant impedance: Y = (P - jQ)/Vn^2. Constant current or power: the same scaled
 * by (Vn/V) or (Vn/V)^2, found by repeating the walk, and no further than to 0.7 of nominal: below that no
 * real load holds its current or power, and a model that insisted would have no solution on a weak feeder.
 */
export function loadModel(p: LoadParameters, place: Placement): PartModel<null> {
  const { part, at } = place;
  const gr = p.power_W / p.nominal_V ** 2;
  const gi = -p.reactive_var / p.nominal_V ** 2;
  const exponent = { impedance: 0, current: 1, power: 2 }[p.holds];
  let scale = 1;
  return {
    ...plain,
    nonlinear: exponent > 0,
    fold(w) {
      w.gr[at] += scale * gr;
      w.gi[at] += scale * gi;
    },
    unfold(w) {
      w.ir[part] = scale * (gr * w.vr[at] - gi * w.vi[at]);
      w.ii[part] = scale * (gr * w.vi[at] + gi * w.vr[at]);
    },
    adjust(w) {
      const level = Math.max(HOLDS_DOWN_TO, magnitude(w, at) / p.nominal_V);
      const wanted = level ** -exponent;
      const change = Math.abs(wanted - scale) / wanted;
      scale = wanted;
      return change;
    },
    power: (w) => ({
      lost_W: w.vr[at] * w.ir[part] + w.vi[at] * w.ii[part],
      shaft_W: 0,
      stored_W: 0,
    }),
  };
}
