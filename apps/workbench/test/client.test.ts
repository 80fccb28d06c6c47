import { describe, expect, it } from "vitest";
import { lightAt, lightCurve, lightOf, SAMPLES_PER_s } from "../src/client/light.ts";

describe("the light of a lamp", () => {
  it("goes with the 3.4th power of the voltage (closed form)", () => {
    expect(lightAt(1)).toBe(1);
    expect(lightAt(0.9)).toBeCloseTo(0.6989, 3);
    expect(lightAt(0.5)).toBeCloseTo(0.0947, 3);
    expect(lightAt(-1)).toBe(0);
  });

  it("settles at the power law under a steady voltage and never goes below it (closed form)", () => {
    const curve = lightCurve(Float64Array.of(0, 5), Float64Array.of(108, 108), 120, 5);
    expect(curve.length).toBe(5 * SAMPLES_PER_s + 1);
    expect(lightOf(curve, 5)).toBeCloseTo(lightAt(0.9), 4);
    expect(Math.min(...curve)).toBeGreaterThanOrEqual(lightAt(0.9) - 1e-6);
    expect(curve[0]).toBe(1);
  });

  it("jumps of the voltage are followed with the lag of the filament: 63 % after 80 ms (closed form)", () => {
    const curve = lightCurve(Float64Array.of(0, 1, 1, 3), Float64Array.of(120, 120, 0, 0), 120, 3);
    expect(lightOf(curve, 0.98)).toBeCloseTo(1, 6);
    expect(lightOf(curve, 1 + 0.08)).toBeGreaterThan(Math.exp(-1) - 0.05);
    expect(lightOf(curve, 1 + 0.08)).toBeLessThan(Math.exp(-1) + 0.05);
  });

  it("times outside the story take its ends", () => {
    const curve = lightCurve(Float64Array.of(0, 1), Float64Array.of(120, 120), 120, 1);
    expect([lightOf(curve, -1), lightOf(curve, 99)]).toEqual([1, 1]);
  });
});
