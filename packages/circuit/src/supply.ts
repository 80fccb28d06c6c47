import type { Impedance } from "./conventions.ts";

/** A stiff sinusoidal source behind a fixed loop impedance. */
export interface SupplyParameters extends Impedance {
  readonly is: "supply";
  readonly name: string;
  /** Open-circuit rms voltage. */
  readonly voltage_V: number;
  readonly frequency_Hz: number;
}
