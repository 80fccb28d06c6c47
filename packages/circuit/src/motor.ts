import type { Place } from "./conventions.ts";
import type { Machine } from "./machine.ts";
import type { LoadTorque } from "./torque.ts";

/** A machine on its shaft: total inertia of rotor and load, and what the load asks. */
export interface MotorParameters extends Place {
  readonly is: "motor";
  readonly machine: Machine;
  readonly inertia_kgm2: number;
  readonly drives: LoadTorque;
  /** Full-load current when known: for findings only. */
  readonly fullLoad_A: number | null;
}
