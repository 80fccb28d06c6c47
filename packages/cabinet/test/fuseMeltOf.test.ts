import { meltingCurrent_A, meltingTime_s } from "@startgap/circuit";
import { describe, expect, it } from "vitest";
import { type CurvePoint, type FuseBand, type FuseSpec, fuseFromClass, meltOf } from "../src/fuse/index.ts";
import type { Assumption } from "../src/grade.ts";
import { issueText } from "../src/issue.ts";

const POINTS: readonly CurvePoint[] = [
  [34, 1800],
  [40, 240],
  [60, 30],
  [120, 2.5],
  [180, 0.5],
];

function band(spec: FuseSpec): FuseBand & { assumptions: readonly Assumption[] } {
  const found = meltOf(spec);
  if (Array.isArray(found)) throw new Error(found.map(issueText).join("\n"));
  return { ...found.value, assumptions: found.assumptions };
}

function refusal(spec: FuseSpec): string[] {
  const found = meltOf(spec);
  return Array.isArray(found) ? found.map(issueText) : [];
}

const said = (assumptions: readonly Assumption[]) =>
  assumptions.map(({ what, value }) => `${what}: ${value}`);
const relative = (got: number, want: number) => Math.abs(got / want - 1);

describe("the melting band of a fuse in a cabinet file", () => {
  it("takes points of the minimum melt outright as its fast edge (2 % of each), and assumes the slow one", () => {
    const { melt, clearing, assumptions } = band({
      rating_A: 30,
      curve: { points: POINTS, melt: "minimum" },
    });
    for (const [current_A, time_s] of POINTS) {
      expect(relative(meltingCurrent_A(melt, time_s), current_A)).toBeLessThan(0.02);
      expect(relative(meltingCurrent_A(clearing, time_s), (current_A * 1.1) / 0.9)).toBeLessThan(0.02);
    }
    expect(said(assumptions)).toEqual([
      "total-clearing curve: 122 % of the given currents",
      "fuse currents at its ambient: 100 % at 25 degC",
    ]);
  });

  it("takes points of the total clearing outright as its slow edge, and assumes the fast one", () => {
    const { melt, clearing, assumptions } = band({
      rating_A: 30,
      curve: { points: POINTS, melt: "clearing" },
    });
    for (const [current_A, time_s] of POINTS) {
      expect(relative(meltingCurrent_A(clearing, time_s), current_A)).toBeLessThan(0.02);
      expect(relative(meltingCurrent_A(melt, time_s), (current_A * 0.9) / 1.1)).toBeLessThan(0.02);
    }
    expect(said(assumptions)).toContain("minimum-melt curve: 81.8 % of the given currents");
  });

  it("puts the edges 10 % in current to either side of an average curve", () => {
    const { melt, clearing, assumptions } = band({
      rating_A: 30,
      curve: { points: POINTS, melt: "average" },
    });
    for (const [current_A, time_s] of POINTS) {
      expect(relative(meltingCurrent_A(melt, time_s), 0.9 * current_A)).toBeLessThan(0.02);
      expect(relative(meltingCurrent_A(clearing, time_s), 1.1 * current_A)).toBeLessThan(0.02);
    }
    expect(said(assumptions)).toContain(
      "edges of the fuse curve: 90 % of the given currents and 110 % of the given currents",
    );
    expect(assumptions.every(({ grade }) => grade === "assumed")).toBe(true);
  });

  it("takes a class by name, and the text of a curve as an average one unless it says which", () => {
    const named = band({ rating_A: 30, curve: "time-delay plug", part: "line fuses" });
    const alone = fuseFromClass("time-delay plug", 30);
    if (Array.isArray(alone)) throw new Error("refused");
    expect(named.melt).toEqual(alone.value.melt);
    expect(named.clearing).toEqual(alone.value.clearing);
    expect(named.assumptions.every(({ part }) => part === "line fuses")).toBe(true);
    const csv = ["I/In;t (s)", ...POINTS.map(([i, t]) => `${i / 30};${t}`)].join("\n");
    const text = band({ rating_A: 30, curve: { csv } });
    const points = band({ rating_A: 30, curve: { points: POINTS, melt: "average" } });
    expect(relative(text.melt.minimumFusing_A, points.melt.minimumFusing_A)).toBeLessThan(1e-6);
    expect(said(text.assumptions)[0]).toBe("kind of fuse curve: average melting");
    expect(said(band({ rating_A: 30, curve: { csv, melt: "minimum" } }).assumptions)[0]).toMatch(
      /^total-clearing curve/,
    );
  });

  it("moves both edges with the ambient: 95 % at 40 degC (common practice, no source, from memory)", () => {
    const cool = band({ rating_A: 30, curve: "RK5" });
    const warm = band({ rating_A: 30, curve: "RK5", ambient_C: 40 });
    expect(relative(warm.melt.minimumFusing_A, 0.95 * cool.melt.minimumFusing_A)).toBeLessThan(1e-12);
    expect(relative(warm.clearing.minimumFusing_A, 0.95 * cool.clearing.minimumFusing_A)).toBeLessThan(1e-12);
    expect(said(warm.assumptions)).toContain("fuse currents at its ambient: 95 % at 40 degC");
  });

  it("assumes where a curve levels off that ends early, by its kind, and keeps its points all the same", () => {
    const short = POINTS.slice(2);
    for (const [melt, multiple] of [
      ["minimum", 1.1],
      ["average", 1.2],
      ["clearing", 1.35],
    ] as const) {
      const found = band({ rating_A: 30, curve: { points: short, melt } });
      const own = melt === "clearing" ? found.clearing : found.melt;
      const factor = melt === "average" ? 0.9 : 1;
      expect(relative(own.minimumFusing_A, factor * multiple * 30)).toBeLessThan(0.02);
      for (const [current_A, time_s] of short)
        expect(relative(meltingCurrent_A(own, time_s), factor * current_A)).toBeLessThan(0.02);
      expect(said(found.assumptions)[1]).toMatch(/^fuse curve beyond 30 s: levels off at /);
    }
  });

  it("does not let a curve that stays above the rating fall below it further on, and melts at its last point", () => {
    const points: CurvePoint[] = [
      [30, 600],
      [50, 25],
    ];
    const { melt } = band({ rating_A: 30, curve: { points, melt: "minimum" } });
    expect(melt.minimumFusing_A).toBeGreaterThan(0.96 * 30);
    expect(relative(meltingTime_s(melt, 30), 600)).toBeLessThan(0.1);
  });

  it("takes a curve below the rating as given, and says so", () => {
    const { assumptions, melt } = band({ rating_A: 60, curve: { points: POINTS, melt: "minimum" } });
    expect(relative(meltingCurrent_A(melt, 30), 60)).toBeLessThan(0.02);
    expect(said(assumptions).join("\n")).toMatch(/fuse curve below its rating: taken as given/);
  });

  it("says how far it is from a curve with a hollow", () => {
    const points: CurvePoint[] = [
      [60, 95],
      [90, 30],
      [120, 17],
      [150, 10.5],
      [180, 7],
      [240, 2],
      [300, 0.5],
    ];
    const { assumptions } = band({ rating_A: 30, curve: { points, melt: "average" } });
    expect(said(assumptions).join("\n")).toMatch(
      /fuse curve: kept within \d\.\d+ % in current, worst at curve\.points\[1\]/,
    );
  });
});

describe("a fuse that cannot be worked out", () => {
  it("is refused for all that is wrong at once, by place", () => {
    const points: CurvePoint[] = [
      [60, 30],
      [90, 40],
    ];
    expect(refusal({ rating_A: 30, curve: { points, melt: "minimum" }, ambient_C: 140 })).toEqual([
      'ambient: expected an ambient of -40 degC to 85 degC, as "40 degC"; received 140 degC',
      "curve.points[1]: expected a current that falls as the time grows: at most 60 A, that of 30 s (curve.points[0]); received 90 A for 40 s",
    ]);
    expect(refusal({ rating_A: 30, curve: { csv: "60;30\n90;40\n70;soon" } })).toEqual([
      'curve.csv, line 3, column 2: expected a time above 0, as 25 or 0.5; received "soon"',
    ]);
    expect(refusal({ rating_A: 30, curve: { csv: "t;I\n30;60\n40;90\n1e9;70" } })[0]).toMatch(
      /^curve\.csv, line 4, column 1: expected a time/,
    );
    expect(refusal({ rating_A: 30, curve: { csv: "t;I\n30;60\n40;90" } })[0]).toMatch(
      /^curve\.csv, line 3: .*\(curve\.csv, line 2\)/,
    );
    expect(refusal({ rating_A: 30, curve: "slow blow" })[0]).toMatch(/^curve: expected a class of fuse/);
    expect(refusal({ rating_A: 35, curve: "plug" })[0]).toMatch(
      /^rating: expected a rating of 0.1 A to 30 A for plug/,
    );
    expect(refusal({ rating_A: Number.NaN, curve: "plug" })).toHaveLength(1);
    expect(refusal({ rating_A: 30, curve: { points: [], melt: "average" } })[0]).toMatch(
      /^curve\.points: expected 2 to 500 points/,
    );
    expect(refusal({ rating_A: 30, curve: { csv: "" } })[0]).toMatch(/^curve\.csv: expected a curve/);
  });
});
