import type { Impedance } from "@startgap/circuit";
import { scaled } from "../cable/impedance.ts";
import { dropped, type Phasor, plus, times } from "./phasor.ts";

/** Rated voltages of two windings in series, V: their ratio is that of their turns. */
export type Windings = readonly [first_V: number, second_V: number];

/** Share of each winding in all the turns, k1 + k2 = 1. */
export function turnsShares(windings_V: Windings): readonly [number, number] {
  const [first, second] = windings_V;
  if (!(first > 0 && second > 0 && Number.isFinite(first + second))) {
    throw new RangeError(`invalid windings: ${first}, ${second} (expected voltages above 0)`);
  }
  return [first / (first + second), second / (first + second)];
}

/** Currents of the two windings in series and what flows in from the feeder, A. */
export interface LegCurrents {
  readonly input_A: Phasor;
  /** From the outer end of the winding towards the midpoint. */
  readonly firstWinding_A: Phasor;
  /** From the midpoint towards the outer end. */
  readonly secondWinding_A: Phasor;
}

/**
 * Winding and input currents of two windings in series on one supply, from the current of each leg's load, A.
 *
 * At the midpoint i1 + I1 = i2 + I2 = Iin. The ampere-turns of a core without exciting current cancel,
 * k1 i1 + k2 i2 = 0. Together: Iin = k1 I1 + k2 I2, i1 = k2 (I2 - I1), i2 = k1 (I1 - I2). A load across both legs
 * adds to the input alone.
 *
 * @param first_A, second_A currents of the loads on each winding; @param both_A of the load across both
 * Checked by packages/cabinet/test/transformer-legs.test.ts.
 */
export function legCurrents(
  windings_V: Windings,
  first_A: Phasor,
  second_A: Phasor,
  both_A: Phasor = { re: 0, im: 0 },
): LegCurrents {
  const [k1, k2] = turnsShares(windings_V);
  const apart = plus(second_A, first_A, -1);
  return {
    input_A: plus(plus(times(first_A, k1), second_A, k2), both_A),
    firstWinding_A: times(apart, k2),
    secondWinding_A: times(apart, -k1),
  };
}

/**
 * Voltages of both legs, V: V1 = k1 Vin + Zw k2^2 (I2 - I1), V2 = Vin - V1.
 *
 * With induced voltages e k1 and e k2 and winding impedances Z1 and Z2, each leg is its induced voltage plus the
 * drop of its winding current. Adding up to Vin fixes e; what is left holds Z1 k2^2 + Z2 k1^2, which is k2^2 times
 * the leakage referred to the first winding, Zw = Z1 + Z2 (k1/k2)^2.
 *
 * @param leakage referred to the first winding, ohm
 * @param input_V across both windings, at the transformer's own terminals
 * Checked by packages/cabinet/test/transformer-legs.test.ts against a mesh solution with Z1 and Z2 apart.
 */
export function legVoltages(
  windings_V: Windings,
  leakage: Impedance,
  input_V: Phasor,
  first_A: Phasor,
  second_A: Phasor,
): { readonly first_V: Phasor; readonly second_V: Phasor } {
  const [k1] = turnsShares(windings_V);
  const own = dropped(seenFromLeg(windings_V, leakage), plus(second_A, first_A, -1));
  const first_V = plus(times(input_V, k1), own);
  return { first_V, second_V: plus(input_V, first_V, -1) };
}

/**
 * Leakage of two windings in series as either leg sees it, its input held stiff, ohm: k2^2 Zw. With equal windings
 * a quarter.
 */
export function seenFromLeg(windings_V: Windings, leakage: Impedance): Impedance {
  const [, k2] = turnsShares(windings_V);
  return scaled(leakage, k2 ** 2);
}

/** An impedance ahead of the input as a leg sees it, ohm: k^2 Z. With equal windings a quarter of the loop. */
export function sourceSeenFromLeg(
  windings_V: Windings,
  source: Impedance,
  leg: "first" | "second",
): Impedance {
  return scaled(source, turnsShares(windings_V)[leg === "first" ? 0 : 1] ** 2);
}

/** Leakage as the input sees it while one leg is shorted, ohm: Zw (k2/k1)^2 for the first, Zw for the second. */
export function seenFromInput(
  windings_V: Windings,
  leakage: Impedance,
  shorted: "first" | "second",
): Impedance {
  const [k1, k2] = turnsShares(windings_V);
  return shorted === "first" ? scaled(leakage, (k2 / k1) ** 2) : leakage;
}

/** Leakage of two separate windings as seen from the second, the first held stiff, ohm: Z (V2/V1)^2. */
export function seenFromSecond(windings_V: Windings, leakage: Impedance): Impedance {
  const [k1, k2] = turnsShares(windings_V);
  return scaled(leakage, (k2 / k1) ** 2);
}
