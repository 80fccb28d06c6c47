import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { spread } from "../src/spread.ts";

describe("words spread along a line", () => {
  it("stay where they wish when there is room", () => {
    expect(spread([10, 50, 90], [10, 10, 10], 0, 100)).toEqual([10, 50, 90]);
  });

  it("share the way when two wish for the same place (closed form)", () => {
    expect(spread([50, 50], [10, 20], 0, 100)).toEqual([42.5, 57.5]);
    expect(spread([2, 2], [10, 10], 0, 100)).toEqual([5, 15]);
    expect(spread([99, 98], [10, 10], 0, 100)).toEqual([95, 85]);
  });

  it("never overlap nor leave the line while there is room for all (invariant)", () => {
    const word = fc.tuple(
      fc.double({ min: 0, max: 100, noNaN: true }),
      fc.double({ min: 1, max: 10, noNaN: true }),
    );
    fc.assert(
      fc.property(fc.array(word, { maxLength: 10 }), (words) => {
        const lengths = words.map(([, length]) => length);
        const placed = spread(
          words.map(([wish]) => wish),
          lengths,
          0,
          100,
        );
        const order = placed.map((_, i) => i).sort((a, b) => placed[a] - placed[b]);
        for (const [k, i] of order.entries()) {
          expect(placed[i]).toBeGreaterThanOrEqual(lengths[i] / 2 - 1e-6);
          expect(placed[i]).toBeLessThanOrEqual(100 - lengths[i] / 2 + 1e-6);
          if (k === 0) continue;
          const before = order[k - 1];
          expect(placed[i] - placed[before]).toBeGreaterThanOrEqual(
            (lengths[i] + lengths[before]) / 2 - 1e-6,
          );
        }
      }),
    );
  });
});
