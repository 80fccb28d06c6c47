import type { Impedance, Place } from "./conventions.ts";
import { type PartModel, type Placement, plain } from "./model.ts";

/** Shunt admittance for idle loss and exciting current, siemens, across the whole input. */
export interface Excitation {
  readonly conductance_S: number;
  /** Magnitude of the inductive susceptance, 0 or more. */
  readonly susceptance_S: number;
}

/** Two separate windings; leakage impedance referred to the first. */
export interface TransformerParameters extends Place, Impedance {
  readonly is: "transformer";
  /** Rated voltages of the first (fed) and second (feeding) winding: only their ratio matters here. */
  readonly windings_V: readonly [number, number];
  readonly rating_VA: number;
  readonly excitation: Excitation;
}

/**
 * Leakage in series at the first winding, then the ideal ratio n = V2/V1: an admittance Y on the second
 * winding is n^2 Y at the first. The exciting branch stands across the input.
 */
export function transformerModel(p: TransformerParameters, place: Placement): PartModel<null> {
  const { part, at } = place;
  const [out] = place.out;
  const { r_ohm: r, x_ohm: x } = p;
  const n = p.windings_V[1] / p.windings_V[0];
  const g0 = p.excitation.conductance_S;
  const b0 = p.excitation.susceptance_S;
  return {
    ...plain,
    fold(w) {
      const yr = n * n * w.gr[out];
      const yi = n * n * w.gi[out];
      const dr = 1 + r * yr - x * yi;
      const di = r * yi + x * yr;
      const q = 1 / (dr * dr + di * di);
      const fr = dr * q;
      const fi = -di * q;
      w.fr[part] = fr;
      w.fi[part] = fi;
      w.gr[at] += yr * fr - yi * fi + g0;
      w.gi[at] += yr * fi + yi * fr - b0;
    },
    unfold(w) {
      const vr = w.vr[at];
      const vi = w.vi[at];
      const ur = n * (vr * w.fr[part] - vi * w.fi[part]);
      const ui = n * (vr * w.fi[part] + vi * w.fr[part]);
      w.vr[out] = ur;
      w.vi[out] = ui;
      w.ir[part] = n * (w.gr[out] * ur - w.gi[out] * ui) + g0 * vr + b0 * vi;
      w.ii[part] = n * (w.gr[out] * ui + w.gi[out] * ur) + g0 * vi - b0 * vr;
    },
    power(w) {
      const loadR = w.ir[part] - g0 * w.vr[at] - b0 * w.vi[at];
      const loadI = w.ii[part] - g0 * w.vi[at] + b0 * w.vr[at];
      const idle = g0 * (w.vr[at] ** 2 + w.vi[at] ** 2);
      return { lost_W: r * (loadR ** 2 + loadI ** 2) + idle, shaft_W: 0, stored_W: 0 };
    },
  };
}
