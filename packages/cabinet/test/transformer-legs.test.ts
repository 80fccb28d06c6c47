import type { Impedance } from "@startgap/circuit";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  legCurrents,
  legVoltages,
  seenFromInput,
  seenFromLeg,
  seenFromSecond,
  sourceSeenFromLeg,
  turnsShares,
  type Windings,
} from "../src/transformer/legs.ts";
import { dropped, magnitude, type Phasor, plus, times } from "../src/transformer/phasor.ts";

const amperes = fc.record({
  re: fc.double({ min: -200, max: 200, noNaN: true }),
  im: fc.double({ min: -200, max: 200, noNaN: true }),
});
const volts = fc.double({ min: 12, max: 480, noNaN: true });
const ohms = fc.record({
  r_ohm: fc.double({ min: 0, max: 2, noNaN: true }),
  x_ohm: fc.double({ min: 0, max: 2, noNaN: true }),
});
const settings = { seed: 20262, numRuns: 300 };
const quiet: Phasor = { re: 0, im: 0 };
const sum = (a: Impedance, b: Impedance, k: number): Impedance => ({
  r_ohm: a.r_ohm + k * b.r_ohm,
  x_ohm: a.x_ohm + k * b.x_ohm,
});

describe("two windings in series", () => {
  it("keep Kirchhoff's law at the midpoint and cancel their ampere-turns (invariant, fixed seed)", () => {
    fc.assert(
      fc.property(volts, volts, amperes, amperes, (V1, V2, first, second) => {
        const { input_A, firstWinding_A, secondWinding_A } = legCurrents([V1, V2], first, second);
        const [k1, k2] = turnsShares([V1, V2]);
        expect(magnitude(plus(plus(firstWinding_A, first), input_A, -1))).toBeLessThan(1e-9);
        expect(magnitude(plus(plus(secondWinding_A, second), input_A, -1))).toBeLessThan(1e-9);
        expect(magnitude(plus(times(firstWinding_A, k1), secondWinding_A, k2))).toBeLessThan(1e-9);
      }),
      settings,
    );
  });

  it("agree with the mesh of two coupled windings, each with its own impedance (independent code, fixed seed)", () => {
    fc.assert(
      fc.property(volts, volts, ohms, ohms, amperes, amperes, (V1, V2, Z1, Z2, first, second) => {
        // Unknown: the voltage e for all turns. Each leg is k e plus the drop of its own winding's current;
        // both add up to the input.
        const [k1, k2] = turnsShares([V1, V2]);
        const { firstWinding_A, secondWinding_A } = legCurrents([V1, V2], first, second);
        const drop1 = dropped(Z1, firstWinding_A);
        const drop2 = dropped(Z2, secondWinding_A);
        const input_V = { re: V1 + V2, im: 0 };
        const e = plus(plus(input_V, drop1, -1), drop2, -1);
        const leakage = sum(Z1, Z2, (k1 / k2) ** 2);
        const { first_V, second_V } = legVoltages([V1, V2], leakage, input_V, first, second);
        expect(magnitude(plus(first_V, plus(times(e, k1), drop1), -1))).toBeLessThan(1e-8);
        expect(magnitude(plus(second_V, plus(times(e, k2), drop2), -1))).toBeLessThan(1e-8);
      }),
      settings,
    );
  });

  it("lose no more power than their resistance takes (invariant, fixed seed)", () => {
    fc.assert(
      fc.property(volts, volts, ohms, amperes, amperes, (V1, V2, leakage, first, second) => {
        const windings: Windings = [V1, V2];
        const input_V = { re: V1 + V2, im: 0 };
        const { first_V, second_V } = legVoltages(windings, leakage, input_V, first, second);
        const { input_A, firstWinding_A } = legCurrents(windings, first, second);
        const power = (V: Phasor, I: Phasor) => V.re * I.re + V.im * I.im;
        const lost = power(input_V, input_A) - power(first_V, first) - power(second_V, second);
        const scale = power(input_V, input_V);
        expect(Math.abs(lost - leakage.r_ohm * magnitude(firstWinding_A) ** 2) / scale).toBeLessThan(1e-9);
      }),
      settings,
    );
  });

  it("carry half the sum of the leg currents in each line and nothing in balanced windings (closed form)", () => {
    const heater = { re: 20, im: 0 };
    const balanced = legCurrents([120, 120], heater, heater);
    expect(magnitude(balanced.input_A)).toBeCloseTo(20, 12);
    expect(magnitude(balanced.firstWinding_A)).toBeCloseTo(0, 12);
    const oneSided = legCurrents([120, 120], times(heater, 2), quiet);
    expect(magnitude(oneSided.input_A)).toBeCloseTo(20, 12);
    expect(magnitude(oneSided.firstWinding_A)).toBeCloseTo(20, 12);
    expect(magnitude(oneSided.secondWinding_A)).toBeCloseTo(20, 12);
    const across = legCurrents([120, 120], quiet, quiet, heater);
    expect([across.input_A.re, across.firstWinding_A.re]).toEqual([20, 0]);
  });

  it("split the legs of a 3 kVA unit under a 12.5 A heater: 118.6 and 119.8 V behind its feeder (closed form)", () => {
    // 4.5 % at X/R 0.5 on 4.8 ohm, a resistive feeder that leaves the pair at 238.4 V.
    const z = 0.045 * 4.8;
    const leakage = { r_ohm: z / Math.sqrt(1.25), x_ohm: (0.5 * z) / Math.sqrt(1.25) };
    const { first_V, second_V } = legVoltages(
      [120, 120],
      leakage,
      { re: 238.4, im: 0 },
      { re: 12.5, im: 0 },
      quiet,
    );
    expect(magnitude(first_V)).toBeCloseTo(118.6, 1);
    expect(magnitude(second_V)).toBeCloseTo(119.8, 1);
  });

  it("show a leg a quarter of the loop and a quarter of the leakage when equal (closed form)", () => {
    const z = { r_ohm: 0.16, x_ohm: 0.08 };
    expect(seenFromLeg([120, 120], z)).toEqual({ r_ohm: 0.04, x_ohm: 0.02 });
    expect(sourceSeenFromLeg([120, 120], z, "first")).toEqual({ r_ohm: 0.04, x_ohm: 0.02 });
    expect(sourceSeenFromLeg([60, 180], z, "second").r_ohm).toBeCloseTo(0.16 * 0.5625, 12);
  });

  it("show the input of a shorted leg what the voltages say (closed form, fixed seed)", () => {
    fc.assert(
      fc.property(volts, volts, ohms, (V1, V2, leakage) => {
        // With the first leg shorted its voltage is 0: its current follows from legVoltages, the input from the ratio.
        const windings: Windings = [V1, V2];
        const [k1, k2] = turnsShares(windings);
        const current = { re: 30, im: 0 };
        for (const leg of ["first", "second"] as const) {
          const loads: [Phasor, Phasor] = leg === "first" ? [current, quiet] : [quiet, current];
          const open = legVoltages(windings, leakage, quiet, ...loads)[
            leg === "first" ? "first_V" : "second_V"
          ];
          const share = leg === "first" ? k1 : k2;
          const input_V = times(open, -1 / share);
          const input_A = legCurrents(windings, ...loads).input_A;
          const seen = seenFromInput(windings, leakage, leg);
          expect(magnitude(plus(input_V, dropped(seen, input_A), -1))).toBeLessThan(
            1e-9 * (1 + magnitude(input_V)),
          );
        }
        const second = seenFromSecond(windings, leakage);
        expect(second.r_ohm).toBeCloseTo(leakage.r_ohm * (k2 / k1) ** 2, 9);
      }),
      settings,
    );
  });

  it("refuse windings without voltage", () => {
    expect(() => turnsShares([120, 0])).toThrow("invalid windings: 120, 0 (expected voltages above 0)");
    expect(() => turnsShares([Number.NaN, 120])).toThrow("invalid windings: NaN, 120");
  });
});
