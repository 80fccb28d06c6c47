import { type MeltTerms, meltingCurrent_A, meltingTime_s, meltResponse } from "@startgap/circuit";
import fc from "fast-check";
import { Matrix, SVD, solve } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { type CurvePoint, fitMelt, type MeltFit } from "../src/fuse/index.ts";
import { dot, leastSquares, residual } from "../src/fuse/leastSquares.ts";
import { nonNegativeLeastSquares } from "../src/fuse/nonNegative.ts";
import { issueText } from "../src/issue.ts";

const relative = (got: number, want: number) => Math.abs(got / want - 1);
const spread = (from: number, to: number, count: number) =>
  Array.from({ length: count }, (_, n) => from * (to / from) ** (n / (count - 1)));
const pointsOf = (terms: MeltTerms, times: readonly number[]): CurvePoint[] =>
  times.map((t) => [meltingCurrent_A(terms, t), t]);

function fitted(points: readonly CurvePoint[], minimumFusing_A?: number): MeltFit {
  const fit = fitMelt(points, { minimumFusing_A });
  if (Array.isArray(fit)) throw new Error(fit.map(issueText).join("\n"));
  return fit;
}

function refusal(points: readonly CurvePoint[], path?: string): string[] {
  const fit = fitMelt(points, { path });
  return Array.isArray(fit) ? fit.map(issueText) : [];
}

const inverseCondition = (matrix: Matrix) => {
  const size = new SVD(matrix).diagonal;
  return Math.min(...size) / Math.max(...size);
};

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Elements with time constants at least a factor `apart` from each other. */
const anyTerms = (apart: number) =>
  fc
    .record({
      shares: fc.array(number(0.05, 1), { minLength: 1, maxLength: 4 }),
      first: number(-1.3, 0),
      gaps: fc.array(number(Math.log10(apart), 1.2), { minLength: 4, maxLength: 4 }),
    })
    .map(({ shares, first, gaps }): MeltTerms => {
      const total = shares.reduce((a, b) => a + b, 0);
      const tau_s = shares.map((_, k) => 10 ** (first + gaps.slice(0, k).reduce((a, b) => a + b, 0)));
      return { minimumFusing_A: 36, share: shares.map((a) => a / total), tau_s };
    });

describe("least squares", () => {
  const columns = (list: readonly (readonly number[])[]) => list.map((c) => Float64Array.from(c));
  /** Whole numbers, the first of every column not 0: no column is all zero. */
  const anyMatrix = (rows: number, many: number) => {
    const entry = fc.integer({ min: -9, max: 9 });
    const column = fc.tuple(
      fc.integer({ min: 1, max: 9 }),
      fc.array(entry, { minLength: rows - 1, maxLength: rows - 1 }),
    );
    return fc.array(
      column.map(([first, rest]) => [first, ...rest]),
      { minLength: many, maxLength: many },
    );
  };
  const anyTarget = (rows: number) =>
    fc.array(fc.integer({ min: -9, max: 9 }), { minLength: rows, maxLength: rows });

  it("agrees with the orthogonal solution of ml-matrix (independent code, 1e-9)", () => {
    fc.assert(
      fc.property(anyMatrix(12, 4), anyTarget(12), (a, b) => {
        const A = new Matrix(a).transpose();
        fc.pre(inverseCondition(A) > 1e-3);
        const want = solve(A, Matrix.columnVector(b), true).to1DArray();
        leastSquares(columns(a), Float64Array.from(b)).forEach((x, k) => {
          expect(Math.abs(x - want[k])).toBeLessThan(1e-9 * (1 + Math.abs(want[k])));
        });
      }),
      { seed: 21, numRuns: 200 },
    );
  });

  it("gives a repeated column nothing (closed form)", () => {
    const a = columns([
      [1, 2, 3],
      [2, 4, 6],
      [0, 1, 0],
    ]);
    expect([...leastSquares(a, Float64Array.from([2, 5, 6]))]).toEqual([2, 0, expect.closeTo(1, 12)]);
  });

  it("is optimal among non-negative ones, with more columns than rows and fewer (invariant: Kuhn-Tucker, 1e-10)", () => {
    for (const [rows, many] of [
      [4, 15],
      [15, 4],
      [8, 8],
    ]) {
      fc.assert(
        fc.property(anyMatrix(rows, many), anyTarget(rows), (a, b) => {
          const A = columns(a);
          const target = Float64Array.from(b);
          const x = nonNegativeLeastSquares(A, target);
          const rest = residual(A, target, x);
          A.forEach((column, k) => {
            const wish = dot(column, rest) / Math.hypot(...column);
            expect(x[k]).toBeGreaterThanOrEqual(0);
            expect(wish).toBeLessThan(1e-10);
            if (x[k] > 0) expect(Math.abs(wish)).toBeLessThan(1e-10);
          });
        }),
        { seed: 22, numRuns: 200 },
      );
    }
  });

  it("leaves out what only a negative coefficient could use (closed form)", () => {
    const a = columns([
      [1, 0],
      [0, 1],
    ]);
    expect([...nonNegativeLeastSquares(a, Float64Array.from([3, -2]))]).toEqual([3, 0]);
  });
});

describe("a fitted melting curve", () => {
  it("finds the single term of t = -tau ln(1 - (I_inf/I)^2) (closed form, 0.1 %)", () => {
    const points = [37, 40, 50, 72, 120, 300].map((i): CurvePoint => [i, -25 * Math.log(1 - (36 / i) ** 2)]);
    const { terms, currentError } = fitted(points);
    expect(terms.share).toEqual([1]);
    expect(relative(terms.minimumFusing_A, 36)).toBeLessThan(0.001);
    expect(relative(terms.tau_s[0], 25)).toBeLessThan(0.001);
    expect(currentError).toBeLessThan(0.001);
  });

  it("recovers known terms from their points: melting times within 0.5 % between the points (closed form)", () => {
    fc.assert(
      fc.property(anyTerms(3), (terms) => {
        const fit = fitted(pointsOf(terms, spread(0.01, 3000, 40)));
        for (const multiple of [1.1, 1.25, 1.6, 2, 3, 5, 8]) {
          const want = meltingTime_s(terms, 36 * multiple);
          if (want > 0.01)
            expect(relative(meltingTime_s(fit.terms, 36 * multiple), want)).toBeLessThan(0.005);
        }
      }),
      { seed: 31, numRuns: 60 },
    );
  });

  it("recovers the response to two pulses with a pause between, not only constant currents (closed form, 0.5 %)", () => {
    fc.assert(
      fc.property(anyTerms(1.5), number(0.2, 2), number(1, 30), (terms, pulse_s, pause_s) => {
        const fit = fitted(pointsOf(terms, spread(0.01, 3000, 40)));
        const profile = [
          { current_A: 110, duration_s: pulse_s },
          { current_A: 14, duration_s: pause_s },
          { current_A: 110, duration_s: pulse_s },
        ];
        expect(
          relative(meltResponse(fit.terms, profile).peak, meltResponse(terms, profile).peak),
        ).toBeLessThan(0.005);
      }),
      { seed: 32, numRuns: 60 },
    );
  });

  it("keeps every point of a curve that a fuse could have within 2 % in current, with 6 terms or fewer (invariant)", () => {
    fc.assert(
      fc.property(
        anyTerms(1.2),
        fc.integer({ min: 3, max: 60 }),
        fc.integer({ min: 1, max: 1000 }),
        (terms, count, seed) => {
          let noise = seed;
          const reading = () => {
            noise = (noise * 16807) % 2147483647;
            return 1 + 0.008 * (2 * (noise / 2147483647) - 1);
          };
          const points = pointsOf(terms, spread(0.01, 2000, count)).map(
            ([i, t]): CurvePoint => [i * reading(), t],
          );
          const fit = fitted(points);
          expect(fit.currentError).toBeLessThan(0.02);
          expect(fit.terms.tau_s.length).toBeLessThanOrEqual(6);
          for (const [i, t] of points) expect(relative(meltingCurrent_A(fit.terms, t), i)).toBeLessThan(0.02);
        },
      ),
      { seed: 33, numRuns: 80 },
    );
  });

  it("keeps straight lines on log-log paper over six decades within 1 % (closed form), with 6 terms", () => {
    for (const power of [0.1, 0.2, 0.3, 0.4]) {
      const fit = fitted(spread(0.01, 1e4, 30).map((t): CurvePoint => [100 * t ** -power, t]));
      expect(fit.currentError).toBeLessThan(0.01);
      expect(fit.terms.tau_s.length).toBeLessThanOrEqual(6);
    }
  });

  it("lies between its points, falls, and never gives I^2 t back, even between points decades apart (invariant)", () => {
    fc.assert(
      fc.property(anyTerms(1.5), fc.integer({ min: 2, max: 6 }), (terms, count) => {
        const points = pointsOf(terms, spread(0.02, 1500, count));
        const fit = fitted(points);
        const fine = spread(0.002, 15000, 120).map((t): CurvePoint => [meltingCurrent_A(fit.terms, t), t]);
        for (let n = 1; n < fine.length; n++) {
          const [[a, s], [b, t]] = [fine[n - 1], fine[n]];
          expect(b).toBeLessThanOrEqual(a);
          expect(b ** 2 * t).toBeGreaterThanOrEqual(a ** 2 * s * (1 - 1e-12));
        }
        for (const [i, t] of fine) {
          if (t < points[0][1] || t > points[count - 1][1]) continue;
          expect(i).toBeLessThan(points[0][0] * 1.02);
          expect(i).toBeGreaterThan(points[count - 1][0] * 0.98);
        }
      }),
      { seed: 34, numRuns: 60 },
    );
  });

  it("goes on at constant I^2 t below an adiabatic shortest time, with no term quicker than it (closed form, 2 %)", () => {
    const points = spread(0.1, 1000, 25).map((t): CurvePoint => [36 / Math.sqrt(1 - Math.exp(-t / 60)), t]);
    const { terms } = fitted(points);
    expect(terms.tau_s[0]).toBeGreaterThan(0.1);
    const atShortest = points[0][0] ** 2 * 0.1;
    for (const t of [0.03, 0.001])
      expect(relative(meltingCurrent_A(terms, t) ** 2 * t, atShortest)).toBeLessThan(0.02);
  });

  it("uses no term quicker than a tenth of the shortest time or slower than a hundred times the longest", () => {
    fc.assert(
      fc.property(anyTerms(1.5), number(-1, 1), (terms, e) => {
        const { tau_s } = fitted(pointsOf(terms, spread(10 ** e, 300, 20))).terms;
        expect(tau_s[0]).toBeGreaterThanOrEqual(0.0999 * 10 ** e);
        expect(tau_s[tau_s.length - 1]).toBeLessThanOrEqual(30_001);
        expect([...tau_s].sort((a, b) => a - b)).toEqual(tau_s);
      }),
      { seed: 35, numRuns: 40 },
    );
  });

  it("levels off at a minimum fusing current given apart from short points (closed form, 2 %), and melts every point", () => {
    const points: CurvePoint[] = [
      [180, 0.5],
      [120, 2.5],
      [60, 30],
    ];
    const fit = fitted(points, 36);
    expect(relative(fit.terms.minimumFusing_A, 36)).toBeLessThan(0.02);
    expect(fit.currentError).toBeLessThan(0.002);
    expect(fit.timeError).toBeLessThan(0.01);
    const alone = fitted(points);
    for (const [i, t] of points) expect(relative(meltingTime_s(alone.terms, i), t)).toBeLessThan(0.01);
  });

  it("takes two points, and the same point twice", () => {
    const two = fitted([
      [50, 25],
      [30, 600],
    ]);
    expect(two.currentError).toBeLessThan(0.002);
    expect(meltingTime_s(two.terms, 30)).toBeLessThan(700);
    expect(
      fitted([
        [50, 25],
        [50, 25],
        [30, 600],
      ]).terms.minimumFusing_A,
    ).toBeLessThan(30);
  });

  it("does not mind the order of the points (invariant)", () => {
    const points = pointsOf(
      { minimumFusing_A: 20, share: [0.1, 0.9], tau_s: [0.5, 60] },
      spread(0.05, 500, 12),
    );
    expect(fitted([...points].reverse()).terms).toEqual(fitted(points).terms);
  });

  it("tells how near it came to a curve with a hollow, up to 10 % in current", () => {
    const fit = fitted([
      [60, 95],
      [90, 30],
      [120, 17],
      [150, 10.5],
      [180, 7],
      [240, 2],
      [300, 0.5],
    ]);
    expect(fit.currentError).toBeGreaterThan(0.02);
    expect(fit.currentError).toBeLessThan(0.1);
    expect(fit.worstPoint).toBe(1);
  });

  it("tells the difference in time as meltingTime_s finds it (independent path: root of the curve)", () => {
    const points: CurvePoint[] = spread(0.1, 100, 9).map((t): CurvePoint => [100 * t ** -0.25, t]);
    const fit = fitted(points);
    const worst = Math.max(...points.map(([i, t]) => relative(meltingTime_s(fit.terms, i), t)));
    expect(fit.timeError).toBe(worst);
  });
});

describe("a curve no fuse could have", () => {
  it("is refused by the two points between which I^2 t falls", () => {
    const broken: CurvePoint[] = [
      [60, 60],
      [90, 25],
      [150, 12],
      [180, 7],
    ];
    expect(refusal(broken, "parts[2].curve.points")).toEqual([
      "parts[2].curve.points[1]: expected an I2t that does not fall as the time grows: at least 270000 A2s, that of 150 A for 12 s (parts[2].curve.points[2]); received 90 A for 25 s, which is 203000 A2s",
      "parts[2].curve.points[0]: expected an I2t that does not fall as the time grows: at least 270000 A2s, that of 150 A for 12 s (parts[2].curve.points[2]); received 60 A for 60 s, which is 216000 A2s",
    ]);
  });

  it("is refused by the two points between which the current rises with the time", () => {
    expect(
      refusal([
        [90, 25],
        [120, 31],
      ]),
    ).toEqual([
      "points[1]: expected a current that falls as the time grows: at most 90 A, that of 25 s (points[0]); received 120 A for 31 s",
    ]);
  });

  it("is refused by the two points between which it bends too sharply for heat flow", () => {
    const [said] = refusal([
      [316, 0.1],
      [100, 1],
      [100, 100],
    ]);
    expect(said).toMatch(
      /^points\[2\]: expected a bend that heat flow can follow after 100 A for 1 s \(points\[1\]\)/,
    );
  });

  it("is still let pass when it falls back by no more than the reading error of a chart", () => {
    expect(
      refusal([
        [100, 1],
        [31.1, 10],
        [25, 30],
      ]),
    ).toEqual([]);
  });

  it("is refused for every value out of range at once, and for too few and too many points", () => {
    expect(
      refusal([
        [Number.NaN, 1],
        [50, -1],
        [1e9, 1],
        [40, Number.POSITIVE_INFINITY],
      ]),
    ).toEqual([
      'points[0][0]: expected a current of 0.001 A to 1000000 A, as "60 A"; received NaN A',
      'points[1][1]: expected a time of 0.0001 s to 1000000 s, as "25 s"; received -1 s',
      'points[2][0]: expected a current of 0.001 A to 1000000 A, as "60 A"; received 1000000000 A',
      'points[3][1]: expected a time of 0.0001 s to 1000000 s, as "25 s"; received Infinity s',
    ]);
    expect(refusal([])).toEqual(["points: expected 2 to 500 points of current and time; received 0 points"]);
    expect(refusal([[50, 1]])).toEqual([
      "points: expected 2 to 500 points of current and time; received 1 point",
    ]);
    const twice: CurvePoint[] = [
      [50, 1],
      [50, 1],
    ];
    expect(refusal(twice)).toEqual(["points: expected points at two times or more; received all at 1 s"]);
    expect(() => fitMelt(twice, { minimumFusing_A: -1 })).toThrow(
      "invalid minimumFusing_A: -1 (expected above 0)",
    );
    expect(refusal(Array.from({ length: 501 }, (): CurvePoint => [50, 1]))).toHaveLength(1);
  });

  it("never makes the fit throw or give anything but finite terms, whatever the points (invariant)", () => {
    const anyPoints = fc.array(fc.tuple(number(-2, 5), number(-4, 5)), { minLength: 2, maxLength: 12 });
    let kept = 0;
    fc.assert(
      fc.property(anyPoints, fc.boolean(), (exponents, falling) => {
        const list = exponents.map(([i, t]): CurvePoint => [10 ** i, 10 ** t]);
        const currents = list.map(([i]) => i).sort((a, b) => b - a);
        const times = list.map(([, t]) => t).sort((a, b) => a - b);
        const fit = fitMelt(falling ? currents.map((i, n): CurvePoint => [i, times[n]]) : list);
        if (Array.isArray(fit)) return;
        kept++;
        const { minimumFusing_A, share, tau_s } = fit.terms;
        expect([minimumFusing_A, ...share, ...tau_s].every((x) => x > 0 && Number.isFinite(x))).toBe(true);
        expect(share.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
        expect(fit.currentError).toBeLessThanOrEqual(0.1);
      }),
      { seed: 36, numRuns: 300 },
    );
    expect(kept).toBeGreaterThan(5);
  });
});
