import { describe, expect, it } from "vitest";
import { quantile, rankCorrelation } from "../../src/vary/spread.ts";

it("a quantile lies on straight lines between the values (closed form)", () => {
  expect(quantile([1, 2, 4], 0.5)).toBe(2);
  expect(quantile([1, 2, 4], 0.75)).toBe(3);
  expect(quantile([0, 10], 0.05)).toBeCloseTo(0.5, 12);
  expect(quantile([3], 0.95)).toBe(3);
});

describe("rank correlation", () => {
  it("is 1 for whatever rises with it, straight or not, and -1 for what falls (definition)", () => {
    const x = [0.1, 3, 2, 8, 5];
    expect(rankCorrelation(x, x.map(Math.exp))).toBeCloseTo(1, 12);
    expect(
      rankCorrelation(
        x,
        x.map((one) => 1 / one),
      ),
    ).toBeCloseTo(-1, 12);
  });
  it("is 1 - 6 sum d^2/(n (n^2 - 1)) without ties (closed form)", () => {
    // Ranks 0 1 2 3 4 against 1 0 2 4 3: four differences of one.
    expect(rankCorrelation([1, 2, 3, 4, 5], [20, 10, 30, 50, 40])).toBeCloseTo(1 - (6 * 4) / (5 * 24), 12);
  });
  it("gives equal values the mean of their ranks, and 0 where nothing changes", () => {
    // Ranks 0, 1.5, 1.5, 3 against 0 1 2 3: 4.5/sqrt(4.5 * 5).
    expect(rankCorrelation([1, 2, 2, 3], [1, 2, 3, 4])).toBeCloseTo(4.5 / Math.sqrt(22.5), 12);
    expect(rankCorrelation([1, 1, 1], [1, 2, 3])).toBe(0);
  });
});
