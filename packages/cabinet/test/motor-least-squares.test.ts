import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { solveCholesky } from "../src/motor/cholesky.ts";
import { leastSquares } from "../src/motor/leastSquares.ts";

describe("Cholesky", () => {
  it("solves a system with a known solution (closed form, 1e-12)", () => {
    // A = L L^T with L = [[2],[6,1],[-8,5,3]]; A (1, 2, 3) = (-32, -24, 206) worked by hand.
    const A = [
      [4, 12, -16],
      [12, 37, -43],
      [-16, -43, 98],
    ];
    const x = solveCholesky(A, [4 + 24 - 48, 12 + 74 - 129, -16 - 86 + 294]);
    expect(x?.map((v) => Number(v.toFixed(12)))).toEqual([1, 2, 3]);
  });

  it("solves any J^T J + 1 (invariant, residual 1e-9)", () => {
    const row = fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { minLength: 4, maxLength: 4 });
    fc.assert(
      fc.property(fc.array(row, { minLength: 6, maxLength: 6 }), row, (J, b) => {
        const A = [0, 1, 2, 3].map((i) =>
          [0, 1, 2, 3].map((j) => J.reduce((sum, r) => sum + r[i] * r[j], i === j ? 1 : 0)),
        );
        const x = solveCholesky(A, b)!;
        const back = A.map((r) => r.reduce((sum, v, j) => sum + v * x[j], 0));
        for (const [i, value] of back.entries()) expect(Math.abs(value - b[i])).toBeLessThan(1e-9);
      }),
      { numRuns: 100, seed: 3 },
    );
  });

  it("says so when the matrix is not positive definite", () => {
    expect(
      solveCholesky(
        [
          [1, 2],
          [2, 1],
        ],
        [1, 1],
      ),
    ).toBeNull();
    expect(solveCholesky([[Number.NaN]], [1])).toBeNull();
  });
});

describe("damped Gauss-Newton", () => {
  it("solves a linear problem as the normal equations do (closed form, 1e-9)", () => {
    // Line through (0, 1), (1, 3), (2, 4), (3, 4): slope 1, intercept 1.5, half sum of squares 0.5.
    const t = [0, 1, 2, 3];
    const y = [1, 3, 4, 4];
    const problem = () => (x: readonly number[]) => t.map((s, i) => x[0] + x[1] * s - y[i]);
    const found = leastSquares(problem, [0, 0], { relativeGain: 1e-14 });
    expect(found.x[0]).toBeCloseTo(1.5, 9);
    expect(found.x[1]).toBeCloseTo(1, 9);
    expect(found.cost).toBeCloseTo(0.5, 12);
    expect(found.outcome).not.toBe("out of iterations");
  });

  it("finds (1, 1) down the curved valley from (-1.2, 1) (published: Rosenbrock 1960; 1e-8)", () => {
    const problem = () => (x: readonly number[]) => [10 * (x[1] - x[0] * x[0]), 1 - x[0]];
    const found = leastSquares(problem, [-1.2, 1], { relativeGain: 0, iterations: 100 });
    expect(found.x[0]).toBeCloseTo(1, 8);
    expect(found.x[1]).toBeCloseTo(1, 8);
    expect(found.iterations).toBeLessThan(100);
  });

  it("recovers an exponential from its own samples (closed form, 1e-8)", () => {
    const t = [0, 0.5, 1, 2, 4];
    const y = t.map((s) => 3 * Math.exp(-0.7 * s));
    const problem = () => (x: readonly number[]) => t.map((s, i) => x[0] * Math.exp(-x[1] * s) - y[i]);
    const found = leastSquares(problem, [1, 0.1], { relativeGain: 0 });
    expect(found.x[0]).toBeCloseTo(3, 8);
    expect(found.x[1]).toBeCloseTo(0.7, 8);
  });

  it("weighs what is held near a point by the envelope theorem (closed form)", () => {
    // max over s of x s - s^2 is x^2/4; held at its s the slope is still right: x = 4 gives 4.
    const problem = (at: readonly number[]) => {
      const s = at[0] / 2;
      return (x: readonly number[]) => [x[0] * s - s * s - 4];
    };
    expect(leastSquares(problem, [1], { relativeGain: 0 }).x[0]).toBeCloseTo(4, 8);
  });

  it("backs off from where the residuals are not finite, and refuses to start there", () => {
    const problem = () => (x: readonly number[]) => [Math.log(x[0]) - 1];
    expect(leastSquares(problem, [0.05], { relativeGain: 0 }).x[0]).toBeCloseTo(Math.E, 8);
    expect(() => leastSquares(problem, [-1])).toThrow("invalid start");
  });

  it("ends with a word when nothing improves or the iterations run out", () => {
    const flat = () => () => [1];
    expect(leastSquares(flat, [0]).outcome).toBe("cannot improve");
    const valley = () => (x: readonly number[]) => [10 * (x[1] - x[0] * x[0]), 1 - x[0]];
    expect(leastSquares(valley, [-1.2, 1], { iterations: 3 }).outcome).toBe("out of iterations");
  });
});
