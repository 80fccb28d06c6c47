import { describe, expect, it } from "vitest";
import { ERROR_3, ERROR_5, MOMENTS, type Row, STAGES } from "../src/dop853.ts";
import { rungeKutta } from "../src/rungeKutta.ts";

const END = 12;
const sum = (row: Row, of: (stage: number) => number): number =>
  row.reduce((total, [stage, by]) => total + by * of(stage), 0);
const power = (order: number) => (stage: number) => MOMENTS[stage] ** order;

/** What the stages before one make of t^order, weighed again by a row: a tall tree of the order conditions. */
const tall = (row: Row, outer: number, inner: number): number =>
  sum(row, (stage) => MOMENTS[stage] ** outer * sum(STAGES[stage], power(inner)));

describe("the tableau of order 8 (closed form)", () => {
  it("reaches every stage at its moment", () => {
    for (let stage = 1; stage < STAGES.length; stage++) {
      expect(sum(STAGES[stage], () => 1)).toBeCloseTo(MOMENTS[stage], 13);
    }
  });

  it("integrates t^0 to t^7 exactly over the step, and t^8 not", () => {
    for (let order = 0; order < 8; order++) {
      expect(sum(STAGES[END], power(order))).toBeCloseTo(1 / (order + 1), 13);
    }
    expect(Math.abs(sum(STAGES[END], power(8)) - 1 / 9)).toBeGreaterThan(1e-7);
  });

  it("meets the conditions of two nested integrals up to order 8", () => {
    for (let outer = 0; outer <= 6; outer++) {
      for (let inner = 0; outer + inner <= 6; inner++) {
        const exact = 1 / ((inner + 1) * (outer + inner + 2));
        expect(tall(STAGES[END], outer, inner)).toBeCloseTo(exact, 12);
      }
    }
  });

  it("estimates nothing up to the orders of its embedded formulas, and something at the next", () => {
    for (const [row, order] of [
      [ERROR_5, 5],
      [ERROR_3, 3],
    ] as const) {
      for (let k = 0; k < order; k++) expect(Math.abs(sum(row, power(k)))).toBeLessThan(1e-13);
      expect(Math.abs(sum(row, power(order)))).toBeGreaterThan(1e-6);
    }
  });
});

describe("its extension through the step (closed form)", () => {
  const pace = { tolerance: 1, firstStep: 2, longest: 2, maxSteps: 10, dense: true };

  it("follows t^7 exactly everywhere between the ends, and t^8 to its order", () => {
    for (const [order, asked] of [
      [3, 1e-13],
      [6, 1e-12],
      [8, 1e-2],
    ]) {
      const rates = (t: number, _: readonly number[], into: number[]): void => {
        into[0] = (order + 1) * t ** order;
      };
      const read = [0];
      rungeKutta(rates, 0, [0], 1, { ...pace, tolerance: 100 }, (tOld, t, _, solution) => {
        for (let k = 0; k <= 20; k++) {
          const at = tOld + ((t - tOld) * k) / 20;
          solution(at, read);
          expect(Math.abs(read[0] - at ** (order + 1))).toBeLessThan(asked);
        }
        return true;
      });
    }
  });

  it("meets the step's own ends and their rates", () => {
    const rates = (_: number, y: readonly number[], into: number[]): void => {
      into[0] = y[1];
      into[1] = -y[0];
    };
    const read = [0, 0];
    rungeKutta(rates, 0, [0, 1], 3, { ...pace, tolerance: 1e-6 }, (tOld, t, y, solution) => {
      solution(t, read);
      expect(Math.abs(read[0] - y[0])).toBeLessThan(1e-15);
      for (let k = 0; k <= 10; k++) {
        const at = tOld + ((t - tOld) * k) / 10;
        solution(at, read);
        expect(Math.abs(read[0] - Math.sin(at))).toBeLessThan(1e-5);
      }
      return true;
    });
  });

  it("costs three rates more, and only where it is read", () => {
    let count = 0;
    const rates = (_: number, y: readonly number[], into: number[]): void => {
      count++;
      into[0] = -y[0];
    };
    const counted = (reads: boolean): number => {
      count = 0;
      let steps = 0;
      rungeKutta(rates, 0, [1], 1, { ...pace, tolerance: 1 }, (_, t, __, solution) => {
        steps++;
        if (reads) solution(t, [0]);
        return true;
      });
      expect(steps).toBeGreaterThan(0);
      return (count - 1) / steps;
    };
    expect(counted(false)).toBe(12);
    expect(counted(true)).toBe(15);
  });
});
