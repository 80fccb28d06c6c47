import fc from "fast-check";
import { expect, it } from "vitest";
import { highest, lowest, mostInAnHour } from "../../src/day/hours.ts";

it("the fullest hour holds what trying every hour that begins at a second finds (independent search)", () => {
  const moments = fc.array(fc.tuple(fc.integer({ min: 0, max: 9000 }), fc.integer({ min: 1, max: 5 })), {
    maxLength: 30,
  });
  fc.assert(
    fc.property(moments, (list) => {
      const sorted = [...list].sort((a, b) => a[0] - b[0]);
      const times = sorted.map(([t]) => t);
      let want = 0;
      for (let from = 0; from <= 9000; from++) {
        let sum = 0;
        for (const [t, weight] of sorted) if (t >= from && t < from + 3600) sum += weight;
        want = Math.max(want, sum);
      }
      expect(mostInAnHour(times, (k) => sorted[k][1]).value).toBe(want);
    }),
    { numRuns: 30 },
  );
});

it("four starts an hour are four in any hour: the fifth begins the next (closed form)", () => {
  const times = Array.from({ length: 96 }, (_, k) => 90 + 900 * k);
  expect(mostInAnHour(times, () => 1)).toEqual({ value: 4, at_s: 90 });
});

it("nothing is the most of nothing", () => {
  expect(mostInAnHour([], () => 1)).toEqual({ value: 0, at_s: 0 });
});

it("highest and lowest tell when, of equals the first", () => {
  expect(highest([0, 1, 2, 3], [5, 9, 9, 1])).toEqual({ value: 9, at_s: 1 });
  expect(lowest([0, 1, 2, 3], [5, 1, 9, 1])).toEqual({ value: 1, at_s: 1 });
});
