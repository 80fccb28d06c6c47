import type { Place } from "./conventions.ts";

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
