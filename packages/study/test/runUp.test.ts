import { describe, expect, it } from "vitest";
import { passes_s, runUp_s } from "../src/runUp.ts";
import { oneQuantity } from "./invented.ts";

const TAU = 0.4;

/** Speed 100 (1 - e^(-t/tau)) from rest at `from` to the end. */
const rising = (from: number, to: number, step: number): [number, number][] =>
  Array.from({ length: Math.round((to - from) / step) + 1 }, (_, k) => {
    const t = from + k * step;
    return [t, 100 * (1 - Math.exp((from - t) / TAU))];
  });

describe("run-up time", () => {
  it("is tau ln 20 for an exponential approach (closed form; absolute 1e-4 s by the cubic at 0.05 s)", () => {
    const recording = oneQuantity(rising(0, 15, 0.05));
    expect(runUp_s(recording, 1, 0, true)).toBeCloseTo(TAU * Math.log(20), 4);
  });

  it("converges with the fourth power of the spacing of the samples (closed form)", () => {
    const error = (step: number): number =>
      Math.abs((runUp_s(oneQuantity(rising(0, 15, step)), 1, 0, true) ?? 0) - TAU * Math.log(20));
    expect(error(0.025)).toBeLessThan(error(0.1) / 60);
  });

  it("counts from the motor's own closing", () => {
    const rows: [number, number][] = [[0, 0], [3, 0], ...rising(3, 18, 0.01)];
    const recording = oneQuantity(rows);
    expect(runUp_s(recording, 1, 2, true)).toBeCloseTo(TAU * Math.log(20), 6);
  });

  it("is found beside jumps, from the samples on its own side (closed form, 1e-12)", () => {
    const straight = oneQuantity([
      [0, 50],
      [1, 90],
      [1, 90],
      [2, 100],
      [2, 100],
      [3, 100],
    ]);
    expect(passes_s(straight, 1, 95, 0)).toBeCloseTo(1.5, 12);
  });

  it("falls on the jump where the quantity itself jumps past the level", () => {
    const jumps = oneQuantity([
      [0, 0],
      [1, 0],
      [1, 100],
      [2, 100],
    ]);
    expect(passes_s(jumps, 1, 50, 0)).toBe(1);
  });

  it("is null for a speed that does not settle, does not turn, or was never there", () => {
    expect(runUp_s(oneQuantity(rising(0, 15, 0.1)), 1, 0, false)).toBeNull();
    expect(
      runUp_s(
        oneQuantity([
          [0, 0],
          [5, 0],
        ]),
        1,
        0,
        true,
      ),
    ).toBeNull();
    expect(
      passes_s(
        oneQuantity([
          [0, 0],
          [5, 40],
        ]),
        1,
        50,
        0,
      ),
    ).toBeNull();
  });

  it("is null where the level was passed before the row asked for only", () => {
    const recording = oneQuantity([
      [0, 0],
      [1, 60],
      [2, 70],
    ]);
    expect(passes_s(recording, 1, 50, 2)).toBeNull();
  });
});
