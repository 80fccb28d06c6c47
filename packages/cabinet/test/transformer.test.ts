import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { issueText } from "../src/issue.ts";
import { efficiencyAt, lossAt_W, ratedLosses, regulationAt } from "../src/transformer/losses.ts";
import { reconnected, sidesAt, throughRating_VA } from "../src/transformer/reconnection.ts";
import { smallUnit, smallUnits } from "../src/transformer/smallUnits.ts";
import { inputVoltage_V, type TransformerSpec } from "../src/transformer/spec.ts";
import { transformerFrom } from "../src/transformer/transformer.ts";

const found = (spec: TransformerSpec) => {
  const result = transformerFrom(spec);
  if (Array.isArray(result)) throw new Error(result.map(issueText).join("\n"));
  return result;
};

const problems = (spec: unknown) => {
  const result = transformerFrom(spec as TransformerSpec);
  return Array.isArray(result) ? result.map(issueText) : [];
};

const auto = { is: "autotransformer", windings_V: [120, 120] } as const;

describe("transformerFrom", () => {
  it("takes 4 % of a 3 kVA, 120 V unit as 0.192 ohm (closed form)", () => {
    const { value, assumptions } = found({ ...auto, rating_VA: 3000, impedance_percent: 4, xOverR: 0.5 });
    expect(Math.hypot(value.r_ohm, value.x_ohm)).toBeCloseTo(0.192, 12);
    expect(value.x_ohm / value.r_ohm).toBeCloseTo(0.5, 12);
    expect(value.excitation).toEqual({ conductance_S: 0, susceptance_S: 0 });
    expect(value.range).toBeNull();
    expect(assumptions).toEqual([]);
  });

  it("adds nothing to ohms that are given outright", () => {
    const { value, assumptions } = found({
      ...auto,
      rating_VA: 3000,
      impedance: { r_ohm: 0.12, x_ohm: 0.1 },
    });
    expect(value).toMatchObject({
      r_ohm: 0.12,
      x_ohm: 0.1,
      excitation: { conductance_S: 0, susceptance_S: 0 },
    });
    expect(assumptions).toEqual([]);
  });

  it("puts what is stated of the idle transformer across the whole input (closed form)", () => {
    const outright = {
      ...auto,
      impedance: { r_ohm: 0.12, x_ohm: 0.1 },
      idleLoss_W: 40,
      excitingCurrent_A: 1,
    } as const;
    const { excitation } = found(outright).value;
    expect(excitation.conductance_S * 240 ** 2).toBeCloseTo(40, 9);
    expect(240 * Math.hypot(excitation.conductance_S, excitation.susceptance_S)).toBeCloseTo(1, 12);
    const separate = found({ ...outright, is: "transformer" }).value.excitation;
    expect(separate.conductance_S * 120 ** 2).toBeCloseTo(40, 9);
    expect(
      found({ ...auto, rating_VA: 3000, impedance_percent: 4, idleLoss_W: 40 }).value.excitation,
    ).toEqual({
      conductance_S: 40 / 57600,
      susceptance_S: 0,
    });
  });

  it("draws the same idle watts and volt-amperes whichever winding the open-circuit test fed (invariant)", () => {
    const windings_V = [240, 120] as const;
    const base = {
      is: "autotransformer",
      windings_V,
      rating_VA: 5000,
      impedance_percent: 3.5,
      xOverR: 0.6,
    } as const;
    const fromFirst = { voltage_V: 240, current_A: 1.25, power_W: 60, side: "first" } as const;
    const fromSecond = { voltage_V: 120, current_A: 2.5, power_W: 60, side: "second" } as const;
    for (const openCircuit of [fromFirst, fromSecond]) {
      const { excitation } = found({ ...base, openCircuit }).value;
      expect(excitation.conductance_S * 360 ** 2).toBeCloseTo(60, 9);
      expect(Math.hypot(excitation.conductance_S, excitation.susceptance_S) * 360 ** 2).toBeCloseTo(300, 9);
    }
  });

  it("gets the same leakage from a short-circuit test on either side (invariant, fixed seed)", () => {
    const ohm = fc.double({ min: 0.001, max: 5, noNaN: true });
    fc.assert(
      fc.property(ohm, ohm, fc.double({ min: 0.1, max: 10, noNaN: true }), (r_ohm, x_ohm, ratio) => {
        const test = (side: "first" | "second") => {
          const k = side === "first" ? 1 : ratio ** -2;
          const current_A = 7;
          return {
            voltage_V: current_A * k * Math.hypot(r_ohm, x_ohm),
            current_A,
            power_W: 49 * k * r_ohm,
            side,
          };
        };
        for (const side of ["first", "second"] as const) {
          const shortCircuit = test(side);
          const windings_V = [100 * ratio, 100] as const;
          const { value } = found({ is: "transformer", windings_V, rating_VA: 1000, shortCircuit });
          expect(value.r_ohm).toBeCloseTo(r_ohm, 6);
          expect(Math.abs(value.x_ohm - x_ohm)).toBeLessThan(1e-6 + 1e-9 * (r_ohm / x_ohm) * r_ohm);
        }
      }),
      { seed: 20263, numRuns: 300 },
    );
  });

  it("assumes all from the rating alone, with a range that holds the nominal (invariant, fixed seed)", () => {
    fc.assert(
      fc.property(fc.double({ min: 20, max: 25000, noNaN: true }), (rating_VA) => {
        const { value, assumptions } = found({ ...auto, rating_VA });
        const { range, r_ohm, x_ohm } = value;
        expect(range!.r_ohm[0]).toBeLessThan(r_ohm);
        expect(range!.r_ohm[1]).toBeGreaterThan(r_ohm);
        expect(range!.x_ohm[0]).toBeLessThan(x_ohm);
        expect(range!.x_ohm[1]).toBeGreaterThan(x_ohm);
        expect(value.excitation.conductance_S).toBeGreaterThan(0);
        expect(value.excitation.susceptance_S).toBeGreaterThanOrEqual(0);
        expect(assumptions.map(({ what }) => what)).toEqual([
          "impedance",
          "ratio X/R",
          "idle loss",
          "exciting current",
        ]);
        for (const { grade, basis } of assumptions) {
          expect([grade, basis]).toEqual(["assumed", "common practice, no source"]);
        }
      }),
      { seed: 20264, numRuns: 300 },
    );
  });

  it("assumes 4.5 % for 3 kVA and between 4.5 and 3.5 % for 4 kVA (regression)", () => {
    expect(found({ ...auto, rating_VA: 3000 }).assumptions[0]).toMatchObject({
      value: "4.5 %",
      range: "3 to 6 %",
    });
    expect(smallUnit(4000).impedance_percent).toBeGreaterThan(3.5);
    expect(smallUnit(4000).impedance_percent).toBeLessThan(4.5);
    expect(smallUnit(20)).toMatchObject({ impedance_percent: 10, idleLoss_W: 2 });
  });

  it("keeps its table in step with itself: idle and winding loss make the full-load loss (common practice, 16 %)", () => {
    const fullLoad_W = [80, 120, 170, 240, 300, 370, 549, 848];
    smallUnits.slice(1).forEach((unit, k) => {
      const winding_W = (unit.rating_VA * unit.impedance_percent) / 100 / Math.hypot(1, unit.xOverR);
      expect(Math.abs((unit.idleLoss_W + winding_W) / fullLoad_W[k]! - 1)).toBeLessThan(0.16);
    });
  });

  it("reports everything wrong at once", () => {
    expect(
      problems({
        is: "autotransformer",
        windings_V: [120, -120],
        rating_VA: 0,
        impedance_percent: 80,
        xOverR: -1,
      }),
    ).toEqual([
      'windings[1]: expected a winding voltage from 1 to 100000 V, as "120 V"; received -120 V',
      'impedance: expected an impedance in percent above 0 to 50 %, as "4.5 %"; received 80 %',
      "xOverR: expected a ratio X/R from 0 to 100, as 0.5; received -1",
      'rating: expected a rating above 0 to 100000000 VA, as "3 kVA"; received 0 VA',
    ]);
  });

  it("refuses what contradicts itself", () => {
    const test = { voltage_V: 5, current_A: 25, power_W: 200, side: "first" };
    expect(problems({ ...auto, rating_VA: 3000, shortCircuit: test })).toEqual([
      "shortCircuit.power: expected a power up to voltage times current, 125 W; received 200 W",
    ]);
    const outright = { impedance: { r_ohm: 0.1, x_ohm: 0.1 } };
    expect(problems({ ...auto, rating_VA: 3000, impedance_percent: 4, ...outright })[0]).toContain(
      "received 2 ways",
    );
    expect(problems({ ...auto, ...outright, xOverR: 1 })).toHaveLength(1);
    expect(problems({ ...auto, ...outright, excitingCurrent_percent: 5 })).toHaveLength(1);
    expect(problems({ ...auto, ...outright, excitingCurrent_A: 0.1, idleLoss_W: 40 })[0]).toContain(
      "expected an idle loss up to what the exciting current carries, 24 VA; received 40 W",
    );
    expect(
      problems({ ...auto, rating_VA: 3000, excitingCurrent_A: 1, excitingCurrent_percent: 5 }),
    ).toHaveLength(1);
    expect(problems({ ...auto, rating_VA: 50000 })[0]).toContain("received nothing, rating 50000 VA");
    expect(problems({ ...auto, rating_VA: 5 })).toHaveLength(1);
    expect(problems({ ...auto })).toEqual([
      'rating: expected a rating above 0 to 100000000 VA, as "3 kVA"; received nothing',
    ]);
    expect(problems({ is: "choke", windings_V: [120], rating_VA: 3000 })).toHaveLength(2);
    expect(problems({ ...auto, impedance: { r_ohm: -1, x_ohm: Number.NaN } })).toHaveLength(2);
  });
});

describe("reconnected", () => {
  it("carries through exactly what both windings carry at their rated current (invariant, fixed seed)", () => {
    const volt = fc.double({ min: 5, max: 5000, noNaN: true });
    const connection = fc.constantFrom("additive" as const, "subtractive" as const);
    fc.assert(
      fc.property(
        fc.double({ min: 10, max: 1e6, noNaN: true }),
        volt,
        volt,
        connection,
        (rating_VA, a, b, kind) => {
          const [common_V, series_V] = kind === "additive" ? [a, b] : [a + b, b];
          const unit = { rating_VA, common_V, series_V, connection: kind };
          const ratings = reconnected(unit);
          for (const fed of ["high", "low"] as const) {
            const sides = sidesAt(unit, fed, throughRating_VA(unit));
            expect(sides.seriesWinding_A / ratings.seriesWinding_A).toBeCloseTo(1, 9);
            expect(sides.commonWinding_A / ratings.commonWinding_A).toBeCloseTo(1, 6);
            expect(sides.input_V * sides.input_A).toBeCloseTo(sides.output_V * sides.output_A, 3);
            expect(sides.input_V > sides.output_V).toBe(fed === "high");
          }
          expect(ratings.transformed_VA + ratings.conducted_VA).toBeCloseTo(ratings.through_VA, 3);
        },
      ),
      { seed: 20265, numRuns: 300 },
    );
  });

  it("refuses windings that would leave nothing", () => {
    const unit = { rating_VA: 1000, common_V: 120, series_V: 120, connection: "subtractive" } as const;
    expect(() => reconnected(unit)).toThrow(
      "invalid series: 120 (expected below the common 120 when subtractive)",
    );
    expect(() => reconnected({ ...unit, rating_VA: Number.NaN })).toThrow("invalid rating: NaN");
    expect(() => sidesAt({ ...unit, series_V: 12 }, "low", -1)).toThrow("invalid load: -1");
  });
});

describe("losses", () => {
  const { value } = found({ ...auto, rating_VA: 3000, impedance_percent: 4, xOverR: 0.5, idleLoss_W: 40 });
  const rating = { fed_V: inputVoltage_V(value), winding_V: 120, rating_VA: 3000 };
  const losses = ratedLosses(value, value.excitation, rating);

  it("are the idle loss and the resistive part of the percentage (closed form)", () => {
    expect(losses.core_W).toBeCloseTo(40, 9);
    expect(losses.winding_W).toBeCloseTo((3000 * 0.04) / Math.sqrt(1.25), 9);
    expect(lossAt_W(losses, 0.5)).toBeCloseTo(40 + losses.winding_W / 4, 9);
  });

  it("are least against the output where winding and core loss are equal (closed form)", () => {
    const best = Math.sqrt(losses.core_W / losses.winding_W);
    const at = (loading: number) => efficiencyAt(losses, 6000, loading, 1);
    expect(at(best)).toBeGreaterThan(at(0.98 * best));
    expect(at(best)).toBeGreaterThan(at(1.02 * best));
    expect(at(0)).toBe(0);
  });

  it("agree in the drop with R cos + X sin at a light load (closed form, 1 %)", () => {
    const light = regulationAt(value, { winding_V: 120, rating_VA: 3000 }, 0.01, 0.8);
    const perUnit = 0.04 / Math.sqrt(1.25);
    expect(light / (0.01 * perUnit * (0.8 + 0.5 * 0.6))).toBeCloseTo(1, 2);
    expect(regulationAt(value, { winding_V: 120, rating_VA: 3000 }, 0, 0.8)).toBe(0);
  });

  it("refuse what is no load", () => {
    expect(() => lossAt_W(losses, -0.1)).toThrow("invalid loading: -0.1");
    expect(() => efficiencyAt(losses, 3000, 1, 1.2)).toThrow("invalid power factor: 1.2 (expected 0 to 1)");
    expect(() => regulationAt(value, { winding_V: 120, rating_VA: 1 }, 1, -1)).toThrow(
      "invalid power factor: -1",
    );
  });
});
