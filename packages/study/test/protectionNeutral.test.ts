import { type MeltTerms, meltingTime_s } from "@startgap/circuit";
import { neutralFirst } from "@startgap/study";
import { describe, expect, it } from "vitest";

const single = (minimumFusing_A: number, tau_s: number): MeltTerms => ({
  minimumFusing_A,
  share: [1],
  tau_s: [tau_s],
});

describe("which of two fuses in one loop opens first", () => {
  it("never the neutral's where it is slower and stronger throughout", () => {
    expect(neutralFirst(single(30, 10), single(60, 20), 2000, 15)).toBeNull();
  });

  it("the neutral's at every current where it is quicker and weaker throughout", () => {
    const found = neutralFirst(single(30, 10), single(20, 5), 2000, 10);
    expect(found?.from_A).toBeCloseTo(20, 1);
    expect(found?.to_A).toBeCloseTo(2000, -1);
  });

  it("of two equal fuses at every current: either may go", () => {
    expect(neutralFirst(single(30, 10), single(30, 10), 1000, 0)).not.toBeNull();
  });

  it("crosses where the two curves cross: tau1 ln(1 - (I1/I)^2) = tau2 ln(1 - (I2/I)^2) (closed form)", () => {
    // The neutral's is stronger for long but quicker in a short circuit: 45^2 * 2 < 30^2 * 10.
    const [line, neutral] = [single(30, 10), single(45, 2)];
    const found = neutralFirst(line, neutral, 5000, 0);
    let [low, high] = [46, 5000];
    for (let n = 0; n < 80; n++) {
      const middle = (low + high) / 2;
      const apart = 10 * Math.log1p(-((30 / middle) ** 2)) - 2 * Math.log1p(-((45 / middle) ** 2));
      if (apart > 0) low = middle;
      else high = middle;
    }
    // Within a step of the grid of currents, 1.3 %.
    expect(found?.from_A).toBeGreaterThanOrEqual(high * (1 - 1e-9));
    expect(found?.from_A).toBeLessThan(1.014 * high);
    expect(found?.to_A).toBeCloseTo(5000, -1);
    const just_A = found?.from_A ?? 0;
    expect(meltingTime_s(neutral, just_A)).toBeLessThanOrEqual(meltingTime_s(line, just_A));
  });

  it("counts what a standing current has warmed: a neutral's fuse may fall behind cold and lead hot", () => {
    // Warm, the one with the longer time constant has used more of its own heat only if it is nearer its limit.
    const [line, neutral] = [single(100, 1), single(50, 60)];
    expect(neutralFirst(line, neutral, 3000, 0)?.from_A).toBeGreaterThan(49);
    const warm = neutralFirst(line, neutral, 3000, 49.9);
    expect(warm?.to_A).toBeGreaterThan(neutralFirst(line, neutral, 3000, 0)?.to_A ?? 0);
  });
});
