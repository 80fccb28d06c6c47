import { describe, expect, it } from "vitest";
import { solved } from "../src/linear.ts";

describe("solved", () => {
  it("finds the x that was multiplied, whatever the order of the rows (invariant)", () => {
    for (let n = 1; n <= 12; n++) {
      const a = Array.from({ length: n }, (_, i) =>
        Array.from(
          { length: n },
          (_, j) => (i === j ? 0 : Math.sin(1 + 7 * i + 3 * j * j)) + (i + 1 === j ? 2 : 0),
        ),
      );
      const x = Array.from({ length: n }, (_, i) => 1 + Math.cos(i));
      if (n === 1) a[0][0] = 3;
      const b = a.map((row) => row.reduce((sum, value, j) => sum + value * x[j], 0));
      const found = solved(
        a.map((row) => row.slice()),
        b,
      );
      found?.forEach((value, i) => {
        expect(Math.abs(value - x[i])).toBeLessThan(1e-9);
      });
      expect(found).not.toBeNull();
    }
  });

  it("says so when there is no single answer", () => {
    expect(solved([[0]], [1])).toBeNull();
    const twice = [
      [1, 2],
      [2, 4],
    ];
    expect(solved(twice, [1, 2])).toBeNull();
    expect(solved([[Number.NaN]], [1])).toBeNull();
  });
});
