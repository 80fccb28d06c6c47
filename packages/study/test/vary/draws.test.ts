import { describe, expect, it } from "vitest";
import { latinHypercube, stream } from "../../src/vary/draws.ts";

describe("the stream of chance", () => {
  const random = stream(7);
  const values = Array.from({ length: 100_000 }, random);

  it("is the same for the same seed, and another for another", () => {
    const again = stream(7);
    expect(Array.from({ length: 5 }, again)).toEqual(values.slice(0, 5));
    expect(stream(8)()).not.toBe(values[0]);
  });

  it("is even over [0, 1): mean 1/2, variance 1/12, neighbours apart (closed form, 5 standard errors)", () => {
    const n = values.length;
    const mean = values.reduce((a, b) => a + b, 0) / n;
    const variance = values.reduce((a, b) => a + (b - mean) ** 2, 0) / n;
    const neighbours = values.slice(1).reduce((a, b, i) => a + (b - mean) * (values[i] - mean), 0) / n;
    expect(Math.abs(mean - 1 / 2)).toBeLessThan(5 * Math.sqrt(1 / 12 / n));
    expect(Math.abs(variance - 1 / 12)).toBeLessThan(5 * Math.sqrt(1 / 180 / n));
    expect(Math.abs(neighbours)).toBeLessThan(5 / 12 / Math.sqrt(n));
    expect(Math.min(...values.slice(0, 1000))).toBeGreaterThanOrEqual(0);
    expect(values.every((value) => value < 1)).toBe(true);
  });
});

it("a Latin hypercube takes every slice of every quantity once (definition)", () => {
  const rows = latinHypercube(40, 3, stream(1));
  for (let q = 0; q < 3; q++) {
    const slices = rows.map((row) => Math.floor(40 * row[q])).sort((a, b) => a - b);
    expect(slices).toEqual(Array.from({ length: 40 }, (_, i) => i));
  }
  expect(rows.map((row) => row[0])).not.toEqual(rows.map((row) => row[1]));
});
