import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Column, pathOf, polyline } from "../src/polyline.ts";

const identity = (value: number) => value;
const column = (time_s: number[], values: number[]): Column => ({ time_s, values, first: 0 });
const all = (c: Column, from: number, to: number) =>
  polyline(c, from, to, identity, identity).map((s) => [...s]);

describe("a column as pixel points", () => {
  it("is cut at the ends of the axis by interpolation (closed form)", () => {
    expect(all(column([0, 10], [0, 100]), 2, 7)).toEqual([[2, 20, 7, 70]]);
    expect(all(column([0, 1, 2, 3], [0, 1, 2, 3]), 1, 2)).toEqual([[1, 1, 2, 2]]);
  });

  it("keeps both sides of a jump", () => {
    expect(all(column([0, 1, 1, 2], [5, 5, 9, 9]), 0, 2)).toEqual([[0, 5, 1, 5, 1, 9, 2, 9]]);
  });

  it("breaks at values that are not finite, and is empty outside", () => {
    expect(all(column([0, 1, 2, 3, 4], [1, 1, Number.NaN, 2, 2]), 0, 4)).toEqual([
      [0, 1, 1, 1],
      [3, 2, 4, 2],
    ]);
    expect(all(column([], []), 0, 1)).toEqual([]);
  });

  it("begins at the first sample that counts", () => {
    const from = { time_s: [0, 1, 2], values: [0, 7, 7], first: 1 };
    expect(polyline(from, 0, 2, identity, identity).map((s) => [...s])).toEqual([[1, 7, 2, 7]]);
  });

  it("when points exceed pixels keeps first, lowest, highest and last of every pixel column (invariant)", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -100, max: 100, noNaN: true }), { minLength: 400, maxLength: 3000 }),
        (y) => {
          const pixels = 50;
          const x = y.map((_, i) => (i / (y.length - 1)) * pixels);
          const [thin] = all(column(x, y), 0, pixels);
          expect(thin.length / 2).toBeLessThanOrEqual(4 * (pixels + 1));
          for (let pixel = 0; pixel < pixels; pixel += 1) {
            const inColumn = (value: number) => Math.floor(value) === pixel;
            const own = y.filter((_, i) => inColumn(x[i]));
            const kept = thin.filter((_, k) => k % 2 === 1 && inColumn(thin[k - 1]));
            expect([Math.min(...kept), Math.max(...kept)]).toEqual([Math.min(...own), Math.max(...own)]);
            expect([kept[0], kept[kept.length - 1]]).toEqual([own[0], own[own.length - 1]]);
          }
        },
      ),
      { numRuns: 20 },
    );
  });

  it("writes a level run as one line and the same picture otherwise", () => {
    expect(pathOf([Float64Array.of(0, 1, 1, 1, 2, 1, 3, 1, 4, 2)])).toBe("M0,1L3,1L4,2");
    expect(pathOf([Float64Array.of(0, 1, 0.01, 1.01, 5, 1)])).toBe("M0,1L5,1");
    expect(pathOf([Float64Array.of(0, 0, 1, 1), Float64Array.of(3, 3, 4, 4)])).toBe("M0,0L1,1M3,3L4,4");
    expect(pathOf([])).toBe("");
  });
});
