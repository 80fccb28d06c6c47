import type { Impedance, Place } from "./conventions.ts";
import { lostInSeries, type PartModel, type Placement, plain } from "./model.ts";
import { foldSeries, unfoldSeries } from "./walk.ts";

/** A two-wire cable: the loop impedance, out and back. */
export interface CableParameters extends Place, Impedance {
  readonly is: "cable";
}

/** A series impedance and nothing else. */
export function cableModel(p: CableParameters, place: Placement): PartModel<null> {
  const { part, at } = place;
  const [out] = place.out;
  return {
    ...plain,
    fold: (w) => foldSeries(w, at, out, p.r_ohm, p.x_ohm),
    unfold: (w) => unfoldSeries(w, part, at, out, p.r_ohm, p.x_ohm),
    power: (w) => lostInSeries(w, part, p.r_ohm),
  };
}
