import { meltingTime_s } from "@startgap/circuit";
import { describe, expect, it } from "vitest";
import { ambientFactor, currentMargin, derated, holdTime_s } from "../src/fuse/index.ts";

const terms = { minimumFusing_A: 36, share: [0.2, 0.8], tau_s: [1, 80] };

describe("a fuse in warm and cold air", () => {
  it("carries 100, 95, 90, 80 % at 25, 40, 50, 65 degC (common practice, no source, from memory)", () => {
    for (const [ambient_C, factor] of [
      [25, 1],
      [40, 0.95],
      [50, 0.9],
      [65, 0.8],
      [45, 0.925],
    ])
      expect(ambientFactor(ambient_C)).toBeCloseTo(factor, 12);
  });

  it("lies between sqrt((Tm - T)/(Tm - 25)) for melting points of 120 and 200 degC (closed form: heat balance)", () => {
    const heatBalance = (melts_C: number, ambient_C: number) =>
      Math.sqrt((melts_C - ambient_C) / (melts_C - 25));
    for (let ambient_C = 30; ambient_C <= 75; ambient_C += 5) {
      expect(ambientFactor(ambient_C)).toBeGreaterThan(heatBalance(120, ambient_C));
      expect(ambientFactor(ambient_C)).toBeLessThan(heatBalance(200, ambient_C));
    }
    for (let ambient_C = -40; ambient_C <= 20; ambient_C += 5) {
      expect(ambientFactor(ambient_C)).toBeLessThan(heatBalance(120, ambient_C));
      expect(ambientFactor(ambient_C)).toBeGreaterThan(heatBalance(200, ambient_C));
    }
  });

  it("falls with the temperature all the way, and is refused where nothing is known", () => {
    for (let ambient_C = -39; ambient_C <= 85; ambient_C++)
      expect(ambientFactor(ambient_C)).toBeLessThan(ambientFactor(ambient_C - 1));
    expect(() => ambientFactor(86)).toThrow("invalid ambient_C: 86 (expected -40 to 85)");
    expect(() => ambientFactor(Number.NaN)).toThrow(RangeError);
  });

  it("melts in the same time at currents smaller by the factor (closed form, 1e-12)", () => {
    const warm = derated(terms, 50);
    for (const current_A of [40, 70, 300])
      expect(meltingTime_s(warm, 0.9 * current_A) / meltingTime_s(terms, current_A)).toBeCloseTo(1, 10);
    expect(terms.minimumFusing_A).toBe(36);
  });
});

describe("how far a fuse is from melting", () => {
  it("is 1/sqrt of the melt fraction: 4 times the current for a sixteenth (closed form)", () => {
    expect(currentMargin(1 / 16)).toBe(4);
    expect(currentMargin(1)).toBe(1);
    expect(currentMargin(4)).toBe(0.5);
    expect(currentMargin(0)).toBeNull();
    for (const wrong of [-0.1, Number.NaN, Number.POSITIVE_INFINITY])
      expect(() => currentMargin(wrong)).toThrow(RangeError);
  });

  it("holds tau ln((i^2 - p^2)/(i^2 - 1)) for one term, cold and warm (closed form, 1e-12)", () => {
    const one = { minimumFusing_A: 36, share: [1], tau_s: [80] };
    expect(holdTime_s(one, 72)).toBeCloseTo(80 * Math.log(4 / 3), 10);
    expect(holdTime_s(one, 72, 18)).toBeCloseTo(80 * Math.log(3.75 / 3), 10);
    expect(holdTime_s(one, 36)).toBe(Number.POSITIVE_INFINITY);
    expect(holdTime_s(one, 72, 36)).toBe(0);
  });

  it("holds the shorter the warmer it starts (invariant)", () => {
    const times = [0, 10, 20, 30, 35].map((preload_A) => holdTime_s(terms, 150, preload_A));
    expect([...times].sort((a, b) => b - a)).toEqual(times);
  });
});
