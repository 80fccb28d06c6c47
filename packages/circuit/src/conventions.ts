/**
 * Conventions of the whole circuit package, said once.
 *
 * - Phasors are rms; the supply's open-circuit voltage is the phase reference (angle 0); e^{+j omega t}.
 * - Complex numbers are kept as separate real and imaginary parts (`r`, `i` or `re`, `im`).
 * - A current is positive into the part, from its feeder towards its loads. Power is positive into the part.
 * - A loop impedance is the whole way out and back. A two-wire feeder is drawn as one series impedance.
 * - Torque and speed are positive in the motor's own forward direction; speed is mechanical, rad/s.
 * - Slip is per unit: 0 synchronous, 1 standstill, 2 full reverse.
 * - Temperatures are degrees Celsius at the boundary; everything else is SI.
 */

/** A series impedance, ohm. `x_ohm` is positive for inductance. */
export interface Impedance {
  readonly r_ohm: number;
  readonly x_ohm: number;
}

/** What any part of the tree says of its place: its own name and what feeds it. */
export interface Place {
  readonly name: string;
  /** Name of the feeding part; absent for the supply alone. */
  readonly fedBy: string;
  /** Which output of a two-leg transformer feeds it. */
  readonly leg: Leg;
}

export type Leg = "first" | "second" | "both";
