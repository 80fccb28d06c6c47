import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type CurrentStep,
  type MeltTerms,
  meltAfter,
  meltingCurrent_A,
  meltingTime_s,
  meltResponse,
  meltSettled,
} from "../src/melt.ts";

const single: MeltTerms = { minimumFusing_A: 36, share: [1], tau_s: [40] };
const triple: MeltTerms = { minimumFusing_A: 33, share: [0.05, 0.25, 0.7], tau_s: [0.3, 12, 180] };

const sum = (x: readonly number[]) => x.reduce((a, b) => a + b, 0);
const relative = (got: number, want: number) => Math.abs(got / want - 1);

/** Independent of the closed forms: classical Runge-Kutta steps on the differential equation itself. */
function stepped(terms: MeltTerms, profile: readonly CurrentStep[], step_s: number): number[] {
  let x = terms.share.map(() => 0);
  for (const { current_A, duration_s } of profile) {
    const rate = (y: readonly number[]) =>
      y.map((v, k) => (terms.share[k] * (current_A / terms.minimumFusing_A) ** 2 - v) / terms.tau_s[k]);
    const n = Math.round(duration_s / step_s);
    const h = duration_s / n;
    for (let i = 0; i < n; i++) {
      const a = rate(x);
      const b = rate(x.map((v, k) => v + (h / 2) * a[k]));
      const c = rate(x.map((v, k) => v + (h / 2) * b[k]));
      const d = rate(x.map((v, k) => v + h * c[k]));
      x = x.map((v, k) => v + (h / 6) * (a[k] + 2 * b[k] + 2 * c[k] + d[k]));
    }
  }
  return x;
}

const anyTerms = fc
  .array(
    fc.record({
      share: fc.double({ min: 0.01, max: 1, noNaN: true }),
      e: fc.double({ min: -2, max: 3.5, noNaN: true }),
    }),
    {
      minLength: 1,
      maxLength: 6,
    },
  )
  .map((list): MeltTerms => {
    const total = sum(list.map(({ share }) => share));
    return {
      minimumFusing_A: 30,
      share: list.map(({ share }) => share / total),
      tau_s: list.map(({ e }) => 10 ** e).sort((a, b) => a - b),
    };
  });

describe("melting time at a constant current", () => {
  it("is -tau ln(1 - (I_inf/I)^2) for a single cold term (closed form, 1e-11)", () => {
    for (const current_A of [36.0001, 40, 72, 180, 3600, 3.6e6]) {
      const want = -40 * Math.log1p(-((36 / current_A) ** 2));
      expect(relative(meltingTime_s(single, current_A), want)).toBeLessThan(1e-11);
    }
  });

  it("is tau ln((i^2 - p^2)/(i^2 - 1)) for a single term warmed by a standing current (closed form, 1e-12)", () => {
    for (const preload_A of [0, 10, 30, 35.9]) {
      const [i2, p2] = [(72 / 36) ** 2, (preload_A / 36) ** 2];
      const want = 40 * Math.log((i2 - p2) / (i2 - 1));
      expect(relative(meltingTime_s(single, 72, preload_A), want)).toBeLessThan(1e-12);
    }
  });

  it("obeys a constant I^2 t in the short-time limit: 1/sum(c_k/tau_k) (closed form, 1e-6)", () => {
    const slope = sum(triple.share.map((a, k) => a / triple.tau_s[k])) / 33 ** 2;
    for (const current_A of [1e5, 1e6]) {
      expect(relative(current_A ** 2 * meltingTime_s(triple, current_A), 1 / slope)).toBeLessThan(1e-6);
    }
  });

  it("is endless up to the minimum fusing current, warm or not, and nil when the preload alone melts it", () => {
    expect(meltingTime_s(triple, 33)).toBe(Number.POSITIVE_INFINITY);
    expect(meltingTime_s(triple, 0)).toBe(Number.POSITIVE_INFINITY);
    expect(meltingTime_s(triple, 32, 30)).toBe(Number.POSITIVE_INFINITY);
    expect(meltingTime_s(triple, 100, 33)).toBe(0);
    expect(meltingTime_s(triple, 33 * (1 + 1e-12))).toBeLessThan(1e5);
  });

  it("is met by the melt fraction reaching 1 when the equation is integrated step by step (independent code, 1e-8)", () => {
    for (const current_A of [40, 66, 165, 400]) {
      const duration_s = meltingTime_s(triple, current_A);
      const x = stepped(triple, [{ current_A, duration_s }], Math.min(0.01, duration_s / 50));
      expect(Math.abs(sum(x) - 1)).toBeLessThan(1e-8);
    }
  });

  it("is undone by the melting current at that time, cold and warm (invariant, 1e-9)", () => {
    fc.assert(
      fc.property(
        anyTerms,
        fc.double({ min: -3, max: 4, noNaN: true }),
        fc.double({ min: 0, max: 0.95, noNaN: true }),
        (terms, e, p) => {
          const preload_A = p * terms.minimumFusing_A;
          const current_A = meltingCurrent_A(terms, 10 ** e, preload_A);
          const back = meltingCurrent_A(terms, meltingTime_s(terms, current_A, preload_A), preload_A);
          expect(relative(back, current_A)).toBeLessThan(1e-9);
        },
      ),
      { seed: 11, numRuns: 300 },
    );
  });

  it("falls as the current rises, with I^2 t never falling as the time grows (invariant)", () => {
    fc.assert(
      fc.property(anyTerms, (terms) => {
        const times = Array.from({ length: 60 }, (_, n) => 10 ** (-4 + n / 7));
        const currents = times.map((t) => meltingCurrent_A(terms, t));
        for (let n = 1; n < times.length; n++) {
          expect(currents[n]).toBeLessThanOrEqual(currents[n - 1]);
          expect(currents[n] ** 2 * times[n]).toBeGreaterThanOrEqual(
            currents[n - 1] ** 2 * times[n - 1] * (1 - 1e-12),
          );
        }
      }),
      { seed: 12, numRuns: 200 },
    );
  });

  it("refuses what is no current, no time and no preload", () => {
    expect(() => meltingTime_s(triple, -1)).toThrow("invalid current_A: -1 (expected 0 or more)");
    expect(() => meltingTime_s(triple, Number.NaN)).toThrow(RangeError);
    expect(() => meltingTime_s(triple, 50, Number.POSITIVE_INFINITY)).toThrow(RangeError);
    expect(() => meltingCurrent_A(triple, 0)).toThrow("invalid time_s: 0 (expected above 0)");
    expect(() => meltingCurrent_A(triple, 1, 33)).toThrow("invalid preload_A");
    expect(meltingCurrent_A(triple, Number.POSITIVE_INFINITY)).toBeCloseTo(33, 12);
  });
});

describe("response to a profile", () => {
  const profile: readonly CurrentStep[] = [
    { current_A: 80, duration_s: 1.5 },
    { current_A: 12, duration_s: 6 },
    { current_A: 100, duration_s: 1.2 },
    { current_A: 0, duration_s: 30 },
  ];

  it("ends where step-by-step integration ends (independent code, 1e-9)", () => {
    const want = stepped(triple, profile, 0.002);
    meltResponse(triple, profile).state.forEach((x, k) => {
      expect(Math.abs(x - want[k])).toBeLessThan(1e-9);
    });
  });

  it("peaks at the end of the second pulse and does not depend on how stretches are cut (invariant, 1e-12)", () => {
    const whole = meltResponse(triple, profile);
    const cut = profile.flatMap(({ current_A, duration_s }) => [
      { current_A, duration_s: 0.3 * duration_s },
      { current_A, duration_s: 0.7 * duration_s },
    ]);
    expect(whole.peak).toBeCloseTo(sum(meltResponse(triple, profile.slice(0, 3)).state), 12);
    expect(meltResponse(triple, cut).peak).toBeCloseTo(whole.peak, 12);
    expect(whole.melted_s).toBeNull();
  });

  it("grows with the square of the current, so a profile larger by 1/sqrt(peak) just melts it (closed form, 1e-9)", () => {
    const { peak } = meltResponse(triple, profile);
    const grown = (by: number) => profile.map((step) => ({ ...step, current_A: step.current_A * by }));
    expect(relative(meltResponse(triple, grown(3)).peak, 9 * peak)).toBeLessThan(1e-12);
    const margin = 1 / Math.sqrt(peak);
    expect(meltResponse(triple, grown(margin * (1 - 1e-9))).melted_s).toBeNull();
    expect(meltResponse(triple, grown(margin * (1 + 1e-9))).melted_s).toBeCloseTo(8.7, 5);
  });

  it("melts at the melting time of a constant current, counted from the start of the profile (closed form, 1e-9)", () => {
    const wait = { current_A: 0, duration_s: 5 };
    const { melted_s } = meltResponse(triple, [wait, { current_A: 90, duration_s: 500 }]);
    expect(relative(melted_s ?? 0, 5 + meltingTime_s(triple, 90))).toBeLessThan(1e-9);
    const warm = meltResponse(triple, [{ current_A: 90, duration_s: 500 }], meltSettled(triple, 25));
    expect(relative(warm.melted_s ?? 0, meltingTime_s(triple, 90, 25))).toBeLessThan(1e-9);
  });

  it("finds a crest inside a stretch within 0.5 % (independent code: 200 000 readings)", () => {
    const terms: MeltTerms = { minimumFusing_A: 10, share: [0.5, 0.5], tau_s: [0.5, 20] };
    const before = [0, 0.6];
    const { peak } = meltResponse(terms, [{ current_A: 7, duration_s: 30 }], before);
    let dense = 0;
    for (let n = 0; n <= 200_000; n++)
      dense = Math.max(dense, sum(meltAfter(terms, before, 7, (30 * n) / 200_000)));
    const ends = [0.6, sum(meltAfter(terms, before, 7, 30))];
    expect(dense).toBeGreaterThan(1.05 * Math.max(...ends));
    expect(peak).toBeLessThanOrEqual(dense + 1e-12);
    expect(relative(peak, dense)).toBeLessThan(0.005);
  });

  it("cools to nothing in a long rest and stays settled under the current that settled it (invariant)", () => {
    expect(sum(meltAfter(triple, [0.1, 0.2, 0.3], 0, 1e6))).toBe(0);
    const settled = meltSettled(triple, 20);
    meltAfter(triple, settled, 20, 77).forEach((x, k) => {
      expect(x).toBeCloseTo(settled[k], 14);
    });
  });

  it("takes an empty profile and stretches of no length, and refuses what is no profile", () => {
    expect(meltResponse(triple, [])).toEqual({ peak: 0, melted_s: null, state: [0, 0, 0] });
    expect(meltResponse(triple, [{ current_A: 500, duration_s: 0 }]).peak).toBe(0);
    expect(meltResponse(triple, [], [0.5, 0.5, 0.5]).melted_s).toBe(0);
    expect(() => meltResponse(triple, [{ current_A: 1, duration_s: -1 }])).toThrow("invalid duration_s: -1");
    expect(() => meltResponse(triple, [{ current_A: Number.NaN, duration_s: 1 }])).toThrow(
      "invalid current_A",
    );
  });
});
