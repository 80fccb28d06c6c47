import { describe, expect, it } from "vitest";
import {
  ambientCorrection,
  copperAmpacity,
  copperAmpacity_A,
  smallConductorLimit_A,
} from "../src/cable/ampacity.ts";
import { onderdonkFusing_A, preeceFusing_A } from "../src/cable/fusing.ts";
import { adiabaticArea_m2, adiabaticK, withstand_A2s } from "../src/cable/shortTime.ts";
import { gaugeArea_m2, gaugeDiameter_m } from "../src/cable/sizes.ts";

describe("ampacity", () => {
  it("rises with the size and with the rating of the insulation (invariant)", () => {
    const rows = copperAmpacity.filter((row) => row.at60C_A !== null);
    rows.forEach((row, k) => {
      expect(row.at60C_A!).toBeLessThan(row.at75C_A!);
      expect(row.at75C_A!).toBeLessThan(row.at90C_A);
      if (k > 0) expect(row.at75C_A!).toBeGreaterThan(rows[k - 1]!.at75C_A!);
    });
  });

  it("is nothing for a size the table has not, and falls to 0 where the air is as hot as the insulation may be", () => {
    expect(copperAmpacity_A("11", 75)).toBeNull();
    expect(copperAmpacity_A("16", 60)).toBeNull();
    expect(copperAmpacity_A("12", 75, 75)).toBe(0);
    expect(() => ambientCorrection(75, 76)).toThrow("invalid ambient: 76");
    expect(() => ambientCorrection(30, 20)).toThrow("invalid rating: 30");
  });

  it("holds the small conductors to no more than their 60 degC ampacity (published: NEC 240.4(D), 310.16)", () => {
    for (const size of ["14", "12", "10"])
      expect(smallConductorLimit_A[size]).toBe(copperAmpacity_A(size, 60));
  });
});

describe("short-time limits", () => {
  it("invert each other: the smallest area for the let-through that an area survives is that area (invariant)", () => {
    for (const k of [76, 115, 143])
      expect(adiabaticArea_m2(k, withstand_A2s(k, 2.5e-6))).toBeCloseTo(2.5e-6, 15);
  });

  it("agree with heating the copper step by step (independent code, 0.2 %: the standard rounds 225.7 to 226)", () => {
    // rho(T) = rho20 (1 + alpha (T - 20)) and 3.45 J/cm3 K, the heat capacity that the standard's 226 stands for.
    const [low, high, step_C] = [70, 160, 0.01];
    let i2t = 0;
    for (let T = low + step_C / 2; T < high; T += step_C) {
      i2t += (3.45e-3 * step_C) / (17.241e-6 * (1 + (T - 20) / 254.5));
    }
    expect(Math.abs(Math.sqrt(i2t) / adiabaticK("Cu", low, high) - 1)).toBeLessThan(0.002);
  });

  it("melt a wire at more current than its insulation survives, and later at less (invariant)", () => {
    for (const gauge of [14, 12, 10, 8]) {
      const area = gaugeArea_m2(gauge);
      const survives_A = Math.sqrt(withstand_A2s(adiabaticK("Cu", 70, 160), area));
      expect(onderdonkFusing_A(area, 1, 40)).toBeGreaterThan(survives_A);
      expect(onderdonkFusing_A(area, 10, 40)).toBeCloseTo(onderdonkFusing_A(area, 0.1, 40) / 10, 6);
      expect(preeceFusing_A(gaugeDiameter_m(gauge))).toBeLessThan(onderdonkFusing_A(area, 1, 40));
    }
  });

  it("refuse what has no answer", () => {
    expect(() => adiabaticK("Cu", 160, 70)).toThrow("invalid temperatures: 160 to 70");
    expect(() => onderdonkFusing_A(1e-6, 0, 25)).toThrow("invalid time: 0");
    expect(() => preeceFusing_A(Number.NaN)).toThrow("invalid diameter: NaN");
    expect(() => gaugeDiameter_m(41)).toThrow("invalid gauge: 41 (expected -3 to 40)");
  });
});
