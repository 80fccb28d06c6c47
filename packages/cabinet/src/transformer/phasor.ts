import type { Impedance } from "@startgap/circuit";

/** An rms phasor: current in A, voltage in V. */
export interface Phasor {
  readonly re: number;
  readonly im: number;
}

/** a + k b, with k real. */
export const plus = (a: Phasor, b: Phasor, k = 1): Phasor => ({ re: a.re + k * b.re, im: a.im + k * b.im });

export const times = (a: Phasor, k: number): Phasor => ({ re: k * a.re, im: k * a.im });

/** Volts that a current drops in an impedance. */
export const dropped = (z: Impedance, current: Phasor): Phasor => ({
  re: z.r_ohm * current.re - z.x_ohm * current.im,
  im: z.r_ohm * current.im + z.x_ohm * current.re,
});

export const magnitude = (a: Phasor): number => Math.hypot(a.re, a.im);
