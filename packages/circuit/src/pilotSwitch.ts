import type { ControlPlacement } from "./controls.ts";
import { type PartModel, plain } from "./model.ts";
import { stuckBy } from "./script.ts";

/** A switch worked by hand in the path of a coil: the master switch. */
export interface PilotSwitchParameters {
  readonly is: "switch";
  readonly name: string;
  /** Where it stands when a story begins, and stays. */
  readonly closed: boolean;
}

export interface PilotSwitchMode {
  readonly stuck?: "open" | "closed";
}

export function pilotSwitchModel(
  p: PilotSwitchParameters,
  place: ControlPlacement,
): PartModel<PilotSwitchMode> {
  const { index } = place;
  const { closed } = place.contacts;
  return {
    ...plain,
    start: { y: [], mode: {} },
    enter({ stuck }) {
      closed[index] = (stuck === undefined ? p.closed : stuck === "closed") ? 1 : 0;
    },
    fold: () => {},
    unfold: () => {},
    reduce: (_, __, of) => of,
    scripted: (of, script) => stuckBy(of, script, p.name),
  };
}
