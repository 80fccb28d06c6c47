import type { Impedance } from "./conventions.ts";
import { lostInSeries, type PartModel, type Placement, plain } from "./model.ts";

/** A stiff sinusoidal source behind a fixed loop impedance. */
export interface SupplyParameters extends Impedance {
  readonly is: "supply";
  readonly name: string;
  /** Open-circuit rms voltage. */
  readonly voltage_V: number;
  readonly frequency_Hz: number;
}

/**
 * Thevenin source: V_out = E/(1 + ZY). Its current and the phase reference are the supply's own.
 */
export function supplyModel(p: SupplyParameters, place: Placement): PartModel<null> {
  const [out] = place.out;
  const { r_ohm: r, x_ohm: x, voltage_V: e } = p;
  return {
    ...plain,
    fold: () => {},
    unfold(w) {
      const yr = w.gr[out];
      const yi = w.gi[out];
      const dr = 1 + r * yr - x * yi;
      const di = r * yi + x * yr;
      const q = e / (dr * dr + di * di);
      w.vr[out] = dr * q;
      w.vi[out] = -di * q;
      w.ir[place.part] = (yr * dr + yi * di) * q;
      w.ii[place.part] = (yi * dr - yr * di) * q;
    },
    power: (w) => lostInSeries(w, place.part, r),
  };
}
