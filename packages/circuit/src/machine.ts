import type { Impedance } from "./conventions.ts";

/**
 * Single-phase induction machine with a main and an optional auxiliary winding in quadrature.
 * All in ohms at `frequency_Hz`, rotor and magnetising values referred to the main winding.
 */
export interface Machine {
  readonly poles: number;
  readonly frequency_Hz: number;
  readonly voltage_V: number;
  readonly main: Impedance;
  /** Rotor at running slip, as in the circuit's r2 and x2. */
  readonly rotor: Impedance;
  /** Rotor at standstill (saturated leakage paths, deep bars); equal to `rotor` when not known. Follows the slip. */
  readonly rotorAtStandstill: Impedance;
  readonly magnetising_ohm: number;
  /** Core-loss resistance across the terminals; Infinity for none. */
  readonly core_ohm: number;
  /** Windage and friction at synchronous speed; falls with the square of the speed. */
  readonly rotationalLoss_W: number;
  readonly auxiliary: Auxiliary | null;
  /** In series with the auxiliary winding while the start switch is closed. `x_ohm` positive = capacitive. */
  readonly startCapacitor: Impedance | null;
  /** Stays in series with the auxiliary winding. `x_ohm` positive = capacitive. */
  readonly runCapacitor: Impedance | null;
  readonly startSwitch: StartSwitch | null;
}

export interface Auxiliary extends Impedance {
  /** Effective turns, auxiliary over main. */
  readonly turnsRatio: number;
}

/** Both speeds as fractions of synchronous speed. */
export interface StartSwitch {
  readonly opens: number;
  readonly closes: number;
}
