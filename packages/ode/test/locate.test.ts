import { describe, expect, it } from "vitest";
import { crossing } from "../src/locate.ts";
import { random } from "./plants.ts";

/** What `crossing` finds between near and far, and how often it looked. */
function found(value: (t: number) => number, near: number, far: number): { t: number; looks: number } {
  let looks = 0;
  const counted = (t: number): number => {
    looks++;
    return value(t);
  };
  return { t: crossing(counted, near, far, value(near), value(far)), looks };
}

const cases: Record<string, { value: (t: number) => number; near: number; far: number; root: number }> = {
  "a line": { value: (t) => t - 0.3, near: 0, far: 1, root: 0.3 },
  "a line falling": { value: (t) => 0.3 - t, near: 0, far: 1, root: 0.3 },
  "a sine": { value: Math.sin, near: 3, far: 4, root: Math.PI },
  "an exponential": { value: (t) => Math.exp(t) - 2, near: 0, far: 5, root: Math.LN2 },
  "a late decay": { value: (t) => Math.exp(-t) - 1e-4, near: 0, far: 100, root: 4 * Math.LN10 },
  "a square root": { value: (t) => Math.sqrt(t) - 0.001, near: 0, far: 1, root: 1e-6 },
  "a step": { value: (t) => (t < 0.123456789 ? -1 : 1), near: 0, far: 1, root: 0.123456789 },
  "a pole passed over": { value: (t) => (t < 0.7 ? -1 / (0.7 - t) : 5), near: 0, far: 1, root: 0.7 },
  "far from zero": { value: (t) => t - 86_400.5, near: 86_400, far: 86_401, root: 86_400.5 },
  "tiny values": { value: (t) => 1e-200 * (t - 0.25), near: 0, far: 1, root: 0.25 },
};

describe.each(Object.entries(cases))("crossing of %s (closed form)", (_, { value, near, far, root }) => {
  it("is found to 1e-12 s on the far side", () => {
    const { t, looks } = found(value, near, far);
    expect(t).toBeGreaterThanOrEqual(root - 4e-16 * Math.abs(root));
    expect(t - root).toBeLessThan(Math.max(2e-12, 1e-15 * Math.abs(root)));
    expect(value(t) * value(far)).toBeGreaterThanOrEqual(0);
    expect(looks).toBeLessThan(60);
  });

  it("is found backwards as well, on the side it goes to", () => {
    const { t } = found(value, far, near);
    expect(t).toBeLessThanOrEqual(root + 4e-16 * Math.abs(root));
    expect(root - t).toBeLessThan(Math.max(2e-12, 1e-15 * Math.abs(root)));
  });
});

describe("flat roots (closed form)", () => {
  it.each([3, 5, 9, 15])("of order %d: as near as the function can tell, in bounded work", (order) => {
    const { t, looks } = found((x) => (x - 0.6) ** order, 0, 1);
    // Below 1e-300 the power itself is zero.
    expect(Math.abs(t - 0.6)).toBeLessThan(2e-12 + 10 ** (-300 / order));
    expect(t).toBeGreaterThanOrEqual(0.6 - 10 ** (-300 / order));
    expect(looks).toBeLessThan(110);
  });

  it("a function that vanishes all along the far side ends at its first zero or just after", () => {
    const { t } = found((x) => Math.min(0, x - 0.4), 0, 1);
    expect(t).toBeGreaterThanOrEqual(0.4 - 1e-16);
    expect(t).toBeLessThan(1);
  });

  it("exactly zero at the far end is that end", () => {
    const { t } = found((x) => x - 1, 0, 1);
    expect(t).toBeGreaterThan(1 - 2e-12);
    expect(t).toBeLessThanOrEqual(1);
  });
});

describe("work (Chandrupatla's promise: hardly ever slower than halving)", () => {
  it("averages less than half the looks of halving on a thousand smooth roots", () => {
    const next = random(11);
    let looks = 0;
    for (let k = 0; k < 1000; k++) {
      const root = next();
      const steep = 0.5 + 5 * next();
      const value = (t: number): number => Math.expm1(steep * (t - root)) + 0.3 * (t - root) ** 3;
      const one = found(value, 0, 1);
      expect(Math.abs(one.t - root)).toBeLessThan(2e-12);
      looks += one.looks;
    }
    expect(looks / 1000).toBeLessThan(20);
  });
});
