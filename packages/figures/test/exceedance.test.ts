import { describe, expect, it } from "vitest";
import { exceedance, timeAt } from "../src/exceedance.ts";

describe("for how long a current was exceeded", () => {
  it("is 2 (1 - level/peak) s for a triangle of 1 s up and 1 s down (closed form)", () => {
    const points = exceedance([0, 1, 2], [0, 40, 0], 50, 0.05);
    expect(points).toHaveLength(50);
    expect(points[0].current_A).toBe(40);
    expect(points[49].current_A).toBeCloseTo(2, 12);
    for (const { current_A, time_s } of points) expect(time_s).toBeCloseTo(2 * (1 - current_A / 40), 12);
  });

  it("is the length of a rectangle at and below its height (closed form), wherever it stands", () => {
    const points = exceedance([0, 3, 3, 4.5, 4.5, 9], [0, 0, 20, 20, 0, 0]);
    for (const { time_s } of points) expect(time_s).toBeCloseTo(1.5, 12);
  });

  it("adds up separate starts", () => {
    const twice = exceedance([0, 1, 1, 5, 5, 6, 6, 8], [30, 30, 4, 4, 30, 30, 4, 4], 10, 0.5);
    for (const { time_s } of twice) expect(time_s).toBeCloseTo(2, 12);
  });

  it("never falls as the current falls (invariant)", () => {
    const time_s = Array.from({ length: 500 }, (_, i) => i * 0.01);
    const current_A = time_s.map((t) => 50 * Math.exp(-t) * (1.2 + Math.sin(9 * t)));
    const points = exceedance(time_s, current_A);
    for (let i = 1; i < points.length; i += 1)
      expect(points[i].time_s).toBeGreaterThanOrEqual(points[i - 1].time_s);
  });

  it("is empty without a current, and refuses a floor that is no fraction", () => {
    expect(exceedance([0, 1], [0, 0])).toEqual([]);
    expect(exceedance([], [])).toEqual([]);
    expect(() => exceedance([0, 1], [1, 1], 10, 0)).toThrow("invalid floor: 0 (expected 0 to 1 exclusive)");
    expect(() => exceedance([0, 1], [1, 1], 1)).toThrow("invalid levels: 1 (expected 2 or more)");
  });
});

describe("time at a current on a curve", () => {
  it("is exact for a power law (closed form: I^2 t constant)", () => {
    const curve = [10, 20, 50, 200].map((current_A) => ({ current_A, time_s: 5000 / current_A ** 2 }));
    for (const current of [10, 13, 20, 37, 199.9])
      expect(timeAt(curve, current)).toBeCloseTo(5000 / current ** 2, 9);
    expect(timeAt([...curve].reverse(), 37)).toBeCloseTo(5000 / 37 ** 2, 9);
  });

  it("is null outside the curve", () => {
    const curve = [
      { current_A: 10, time_s: 5 },
      { current_A: 20, time_s: 1 },
    ];
    expect(timeAt(curve, 9.9)).toBeNull();
    expect(timeAt(curve, 20.1)).toBeNull();
    expect(timeAt([], 3)).toBeNull();
  });
});
