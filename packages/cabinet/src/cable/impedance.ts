import type { Impedance } from "@startgap/circuit";

/** Plausible low and high of an impedance, each part by itself, ohm. */
export interface ImpedanceRange {
  readonly r_ohm: readonly [low: number, high: number];
  readonly x_ohm: readonly [low: number, high: number];
}

/** The impedance of that magnitude (ohm) and ratio of reactance to resistance: R = Z/sqrt(1 + k^2), X = k R. */
export function ofMagnitude(z_ohm: number, xOverR: number): Impedance {
  const r_ohm = z_ohm / Math.hypot(1, xOverR);
  return { r_ohm, x_ohm: xOverR * r_ohm };
}

/** Smallest and largest of both parts over magnitudes (ohm) and ratios that are possible together. */
export function rangeOfMagnitude(
  z_ohm: readonly [number, number],
  xOverR: readonly [number, number],
): ImpedanceRange {
  return {
    r_ohm: [ofMagnitude(z_ohm[0], xOverR[1]).r_ohm, ofMagnitude(z_ohm[1], xOverR[0]).r_ohm],
    x_ohm: [ofMagnitude(z_ohm[0], xOverR[0]).x_ohm, ofMagnitude(z_ohm[1], xOverR[1]).x_ohm],
  };
}

export const scaled = (z: Impedance, factor: number): Impedance => ({
  r_ohm: z.r_ohm * factor,
  x_ohm: z.x_ohm * factor,
});

export const inSeries = (a: Impedance, b: Impedance): Impedance => ({
  r_ohm: a.r_ohm + b.r_ohm,
  x_ohm: a.x_ohm + b.x_ohm,
});
