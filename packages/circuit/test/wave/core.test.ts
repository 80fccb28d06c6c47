import { describe, expect, it } from "vitest";
import { coreOf, USUAL_CORE } from "../../src/index.ts";

const omega = 120 * Math.PI;
const excited = { conductance_S: 0, susceptance_S: 0.625 / 240 };
const core = coreOf(excited, 240, 3000, omega);
if (core === null) throw new Error("no core");
const peak = (Math.SQRT2 * 240) / omega;

describe("a core", () => {
  it("takes the envelope's rms exciting current at nominal voltage (closed form by quadrature, 1e-3)", () => {
    const points = 4000;
    let sum = 0;
    for (let k = 0; k < points; k++) sum += core.current(peak * Math.sin((2 * Math.PI * k) / points)) ** 2;
    expect(Math.abs(Math.sqrt(sum / points) / 0.625 - 1)).toBeLessThan(1e-3);
  });

  it("is odd, rises, and its slope is the derivative of its current (invariant)", () => {
    for (const flux of [0.05, 0.5, 1, 1.19, 1.2, 1.21, 1.6, 2.5].map((share) => share * peak)) {
      expect(core.current(-flux)).toBeCloseTo(-core.current(flux), 12);
      const step = 1e-6 * peak;
      const slope = (core.current(flux + step) - core.current(flux - step)) / (2 * step);
      expect(Math.abs(core.slope(flux) / slope - 1)).toBeLessThan(1e-5);
      expect(core.slope(flux)).toBeGreaterThan(0);
    }
  });

  it("far beyond the knee has the air-core inductance (closed form)", () => {
    const air = (USUAL_CORE.air_pu * 240 ** 2) / (3000 * omega);
    expect(Math.abs(1 / core.slope(4 * peak) / air - 1)).toBeLessThan(1e-3);
  });

  it("without a stated exciting current saturates all the same, and takes next to nothing below the knee", () => {
    const bare = coreOf({ conductance_S: 0, susceptance_S: 0 }, 240, 3000, omega);
    expect(bare?.current(peak)).toBeLessThan(0.02 * 12.5);
    expect(bare?.current(2 * peak)).toBeGreaterThan(3 * 12.5);
  });

  it("is left out where no rating is given", () => {
    expect(coreOf(excited, 240, Number.POSITIVE_INFINITY, omega)).toBeNull();
  });
});
