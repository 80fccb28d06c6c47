import type { Event } from "@startgap/ode";
import type { PartGuard } from "./model.ts";
import type { Script } from "./script.ts";

/** What a voltage-worked contact does, apart from any network: the same in both resolutions. */
export interface ControlLogic<S> {
  readonly start: S;
  guards(mode: S): readonly PartGuard[];
  /** The rms voltage at which the one guard of this mode passes. */
  threshold_V(mode: S): number;
  scheduled(mode: S): readonly Event[];
  reduce(event: Event, mode: S): S;
  /** True while the contact is to be closed. */
  closed(mode: S): boolean;
  scripted(mode: S, script: Script): S;
}

/** The one guard of a control's mode. */
export const watching = (name: string, direction: "rising" | "falling"): readonly PartGuard[] => [
  { name, direction, level: true, electrical: true },
];
