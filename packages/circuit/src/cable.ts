import type { Impedance, Place } from "./conventions.ts";

/** A two-wire cable: the loop impedance, out and back. */
export interface CableParameters extends Place, Impedance {
  readonly is: "cable";
}
