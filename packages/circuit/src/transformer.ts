import type { Impedance, Place } from "./conventions.ts";

/** Shunt admittance for idle loss and exciting current, siemens, across the whole input. */
export interface Excitation {
  readonly conductance_S: number;
  /** Magnitude of the inductive susceptance, 0 or more. */
  readonly susceptance_S: number;
}

/** Two separate windings; leakage impedance referred to the first. */
export interface TransformerParameters extends Place, Impedance {
  readonly is: "transformer";
  /** Rated voltages of the first (fed) and second (feeding) winding: only their ratio matters here. */
  readonly windings_V: readonly [number, number];
  readonly rating_VA: number;
  readonly excitation: Excitation;
}
