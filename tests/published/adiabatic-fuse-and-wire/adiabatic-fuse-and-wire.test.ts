import { gaugeArea_m2, withstand_A2s } from "@startgap/cabinet";
import type { MeltTerms } from "@startgap/circuit";
import { shortTimeMargin } from "@startgap/study";
import { describe, expect, it } from "vitest";

const K_PVC = 115;
const single = (minimumFusing_A: number, tau_s: number): MeltTerms => ({
  minimumFusing_A,
  share: [1],
  tau_s: [tau_s],
});
const melts_s = (i_A: number, inf_A: number, tau_s: number): number =>
  -tau_s * Math.log1p(-((inf_A / i_A) ** 2));

describe("I^2 t of a fuse against k^2 S^2 of a conductor", () => {
  it("1000 A for 0.1 s is just borne by 2.750 mm2 (published)", () => {
    const [inf_A, most_A] = [50, 1000];
    const tau_s = 0.1 / -Math.log1p(-((inf_A / most_A) ** 2));
    const bears = withstand_A2s(K_PVC, 2.75e-6);
    const found = shortTimeMargin(single(inf_A, tau_s), bears, most_A);
    // The highest current is a point of the grid; only times up to 5 s count, and I^2 t falls with the current.
    const least = bears / (most_A ** 2 * 0.1);
    expect(least).toBeCloseTo(1, 3);
    expect(found?.least).toBeLessThanOrEqual(least * (1 + 1e-9));
  });

  it("the closest point of a single-term fuse is where it takes 5 s, for I^2 t falls with the current (closed form, 3 %)", () => {
    const [inf_A, tau_s] = [40, 60];
    const bears = withstand_A2s(K_PVC, gaugeArea_m2(12));
    const found = shortTimeMargin(single(inf_A, tau_s), bears, 2000);
    const at5_A = inf_A / Math.sqrt(-Math.expm1(-5 / tau_s));
    // The grid's first current within 5 s lies up to 3.3 % above that.
    expect(found?.current_A).toBeGreaterThanOrEqual(at5_A * (1 - 1e-9));
    expect(found?.current_A).toBeLessThan(1.034 * at5_A);
    expect(found?.time_s).toBeCloseTo(melts_s(found?.current_A ?? 0, inf_A, tau_s), 9);
  });

  it("below a hundredth of a second the conductor is heated for a hundredth of a second (closed form)", () => {
    const found = shortTimeMargin(single(10, 0.05), withstand_A2s(K_PVC, gaugeArea_m2(14)), 3000);
    expect(found?.time_s).toBe(0.01);
    expect(found?.least).toBeCloseTo(57_267 / (3000 ** 2 * 0.01), 3);
  });

  it("a fault that the fuse does not clear within 5 s is no question of it", () => {
    expect(shortTimeMargin(single(40, 600), 1e6, 100)).toBeNull();
    expect(shortTimeMargin(single(40, 1), 1e6, 39)).toBeNull();
  });

  for (const [gauge, bears_A2s] of [
    [14, 57_267],
    [12, 144_787],
    [10, 366_065],
    [8, 925_521],
  ] as const) {
    it(`${gauge} AWG bears ${bears_A2s} A2s and not a percent more (published, 0.1 %)`, () => {
      const most_A = 2000;
      const bears = withstand_A2s(K_PVC, gaugeArea_m2(gauge));
      const tauFor = (letThrough: number): number =>
        letThrough / most_A ** 2 / -Math.log1p(-((5 / most_A) ** 2));
      const least = (letThrough: number): number =>
        bears / (most_A ** 2 * melts_s(most_A, 5, tauFor(letThrough)));
      expect(least(bears_A2s * 0.999)).toBeGreaterThan(1);
      expect(least(bears_A2s * 1.01)).toBeLessThan(1);
    });
  }
});
