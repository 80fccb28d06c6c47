import type { Leg, Place } from "./conventions.ts";

export interface Coil {
  readonly rated_V: number;
  /** The part whose output feeds the coil. */
  readonly fedBy: string;
  readonly leg: Leg;
  readonly pullIn_V: number;
  readonly dropOut_V: number;
  readonly pullInTime_s: number;
  readonly dropOutTime_s: number;
}

/** Main contacts worked by a coil; without a coil it is a switch closed by hand at 0 s. */
export interface ContactorParameters extends Place {
  readonly is: "contactor";
  readonly coil: Coil | null;
}
