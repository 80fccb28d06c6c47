import type { GeneratorSource, InverterSource, SupplyParameters } from "../src/index.ts";
import { type Phasor, phasor, plus, product, quotient, scaled } from "./phasor.ts";

/** A set in per unit of its voltage and rating: ohms are what makes 1 A at 1 V. */
export const set: GeneratorSource = {
  is: "generator",
  rating_VA: 7200,
  synchronous_ohm: 1.8 * 8,
  fieldTime_s: 0.6,
  ceiling: 5,
  recovery_s: 2.5,
};
/** Rated impedance of that set at 240 V. */
export const BASE_ohm = 8;

/** 7.2 kVA at 240 V, X' = 0.25, R = 0.03. */
export const generator = (more: Partial<GeneratorSource> = {}): SupplyParameters => ({
  is: "supply",
  name: "generator",
  voltage_V: 240,
  frequency_Hz: 60,
  r_ohm: 0.03 * BASE_ohm,
  x_ohm: 0.25 * BASE_ohm,
  source: { ...set, ...more },
});

/** 4.8 kVA at 240 V: 20 A for good, 40 A for five seconds. */
export const inverter = (more: Partial<InverterSource> = {}): SupplyParameters => ({
  is: "supply",
  name: "inverter",
  voltage_V: 240,
  frequency_Hz: 60,
  r_ohm: 6,
  x_ohm: 0,
  source: { is: "inverter", continuous_A: 20, limit_A: 40, surge_s: 5, stops_s: 1, ...more },
});

/** Closed form of a set without a regulator on an admittance that is closed at 0 s, from no load. */
export function unregulated_V(p: SupplyParameters, s: GeneratorSource, y: Phasor, t: number): number {
  const divider = quotient(phasor(1), plus(phasor(1), product(phasor(p.r_ohm, p.x_ohm), y)));
  const reacts = product(phasor(0, s.synchronous_ohm - p.x_ohm), product(y, divider));
  const lambda = scaled(1 / s.fieldTime_s, plus(phasor(1), reacts));
  const end = quotient(phasor(p.voltage_V), plus(phasor(1), reacts));
  const decay = Math.exp(-lambda.re * t);
  const turn = phasor(decay * Math.cos(lambda.im * t), -decay * Math.sin(lambda.im * t));
  const flux = plus(end, product(plus(phasor(p.voltage_V), scaled(-1, end)), turn));
  const v = product(divider, flux);
  return Math.hypot(v.re, v.im);
}

/** Admittance per unit of the set's rating at a power factor, lagging. */
export const admittance = (perUnit: number, powerFactor: number): Phasor =>
  scaled(perUnit / BASE_ohm, phasor(powerFactor, -Math.sqrt(1 - powerFactor ** 2)));
