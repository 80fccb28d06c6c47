import type { Impedance, Place } from "./conventions.ts";
import { lostInSeries, type PartModel, type Placement, plain } from "./model.ts";
import { series } from "./walk.ts";

/** A two-wire cable: the loop impedance, out and back. */
export interface CableParameters extends Place, Impedance {
  readonly is: "cable";
}

/** A series impedance and nothing else. */
export function cableModel(p: CableParameters, place: Placement): PartModel<null> {
  const { part, at } = place;
  const [out] = place.out;
  const link = series(part, at, out, p.r_ohm, p.x_ohm);
  return {
    ...plain,
    fold: link.fold,
    unfold: link.unfold,
    power: (w) => lostInSeries(w, part, p.r_ohm),
  };
}
