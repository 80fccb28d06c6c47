import { describe, expect, it } from "vitest";
import { endOf, METHODS, type Rate } from "../ode-support/endOf.ts";
import data from "./data.json" with { type: "json" };

const { mu } = data;
const distances = (y: readonly number[]): [number, number] => [
  Math.hypot(y[0] + mu, y[1]),
  Math.hypot(y[0] - 1 + mu, y[1]),
];

const field: Rate = (_, y, rate) => {
  const [d1, d2] = distances(y);
  const [a, b] = [(1 - mu) / d1 ** 3, mu / d2 ** 3];
  rate[0] = y[2];
  rate[1] = y[3];
  rate[2] = y[0] + 2 * y[3] - a * (y[0] + mu) - b * (y[0] - 1 + mu);
  rate[3] = y[1] - 2 * y[2] - (a + b) * y[1];
};

const jacobi = (y: readonly number[]): number => {
  const [d1, d2] = distances(y);
  return y[0] ** 2 + y[1] ** 2 + (2 * (1 - mu)) / d1 + (2 * mu) / d2 - y[2] ** 2 - y[3] ** 2;
};

describe.each(METHODS)("Arenstorf orbit (published: Hairer, Norsett, Wanner II.0), by %s", (method) => {
  it.each([
    [1e-10, 1e-5],
    [1e-12, 1e-6],
  ])("at tolerance %d it closes within %d after its printed period", (tolerance, asked) => {
    const { end } = endOf(field, data.start, data.period, tolerance, method);
    expect(Math.hypot(end.y[0] - data.start[0], end.y[1])).toBeLessThan(asked);
  });

  it("keeps its Jacobi constant (invariant)", () => {
    expect(Math.abs(jacobi(data.start) / data.jacobiConstant - 1)).toBeLessThan(1e-13);
    for (const t of [3, 6, 11]) {
      const { end } = endOf(field, data.start, t, 1e-12, method);
      expect(jacobi(end.y) / data.jacobiConstant).toBeCloseTo(1, 9);
    }
  });

  it("costs a bounded number of derivative calls", () => {
    expect(endOf(field, data.start, data.period, 1e-10, method).count.evaluations).toBeLessThan(8000);
  });
});
