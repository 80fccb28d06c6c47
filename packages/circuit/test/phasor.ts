import type { CircuitPlant, Mode } from "../src/index.ts";

/** Complex arithmetic for closed forms, kept apart from the code under test. */
export interface Phasor {
  readonly re: number;
  readonly im: number;
}

export const phasor = (re: number, im = 0): Phasor => ({ re, im });
export const plus = (...terms: readonly Phasor[]): Phasor =>
  terms.reduce((s, z) => phasor(s.re + z.re, s.im + z.im), phasor(0));
export const scaled = (k: number, z: Phasor): Phasor => phasor(k * z.re, k * z.im);
export const product = (p: Phasor, q: Phasor): Phasor =>
  phasor(p.re * q.re - p.im * q.im, p.re * q.im + p.im * q.re);
export const quotient = (p: Phasor, q: Phasor): Phasor =>
  scaled(1 / (q.re ** 2 + q.im ** 2), product(p, phasor(q.re, -q.im)));
export const apart = (p: Phasor, q: Phasor): number => Math.hypot(p.re - q.re, p.im - q.im);

/** Voltage at a part's output number `k`, or at the terminals of a load or motor. */
export function volts(
  plant: CircuitPlant,
  name: string,
  k = 0,
  at?: { y: readonly number[]; mode: Mode },
): Phasor {
  const { y, mode } = at ?? plant.start();
  const place = plant.layout.places[partOf(plant, name)];
  const { vr, vi } = plant.solve(y, mode);
  const node = place.out[k] ?? place.at;
  return phasor(vr[node], vi[node]);
}

/** Current into a part. */
export function amperes(
  plant: CircuitPlant,
  name: string,
  at?: { y: readonly number[]; mode: Mode },
): Phasor {
  const { y, mode } = at ?? plant.start();
  const { ir, ii } = plant.solve(y, mode);
  const part = partOf(plant, name);
  return phasor(ir[part], ii[part]);
}

export const partOf = ({ layout }: CircuitPlant, name: string): number =>
  layout.circuit.parts.findIndex((p) => p.name === name);
