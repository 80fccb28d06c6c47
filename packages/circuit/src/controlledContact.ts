import type { ControlLogic } from "./control.ts";
import { type PartModel, type Placement, plain } from "./model.ts";
import { magnitude, straight, unfoldOpen } from "./walk.ts";

/** A contact in the line, worked by logic that reads the rms voltage of one node. */
export function controlledContact<S>(logic: ControlLogic<S>, place: Placement, sensed: number): PartModel<S> {
  const { part, at } = place;
  const [out] = place.out;
  const link = straight(part, at, out);
  let mode = logic.start;
  return {
    ...plain,
    start: { y: [], mode },
    enter(next) {
      mode = next;
    },
    fold(w) {
      if (logic.closed(mode)) link.fold(w);
    },
    unfold(w) {
      if (logic.closed(mode)) link.unfold(w);
      else unfoldOpen(w, part, out);
    },
    guards: logic.guards,
    guardValues(w, _, values, offset) {
      values[offset] = magnitude(w, sensed) - logic.threshold_V(mode);
    },
    scheduled: logic.scheduled,
    reduce: (event, _, of) => logic.reduce(event, of),
    conducts: logic.closed,
    scripted: logic.scripted,
  };
}
