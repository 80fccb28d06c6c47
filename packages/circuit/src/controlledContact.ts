import type { ControlLogic } from "./control.ts";
import { type PartModel, type Placement, plain } from "./model.ts";
import { straight, unfoldOpen, type Walk } from "./walk.ts";

/** A contact in the line, worked by logic that reads one number off the solved network: as a rule an rms voltage. */
export function controlledContact<S>(
  logic: ControlLogic<S>,
  place: Placement,
  sense: (w: Walk) => number,
): PartModel<S> {
  const { part, at } = place;
  const { closed } = place.contacts;
  const [out] = place.out;
  const link = straight(part, at, out);
  let mode = logic.start;
  return {
    ...plain,
    start: { y: [], mode },
    enter(next) {
      mode = next;
      closed[part] = logic.closed(next) ? 1 : 0;
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
      values[offset] = sense(w) - logic.threshold_V(mode);
    },
    scheduled: logic.scheduled,
    reduce: (event, _, of) => logic.reduce(event, of),
    conducts: logic.closed,
    scripted: logic.scripted,
  };
}
