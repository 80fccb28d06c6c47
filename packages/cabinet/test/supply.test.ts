import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { issueText } from "../src/issue.ts";
import type { SupplyFound, SupplySpec } from "../src/supply/spec.ts";
import { supplyFrom } from "../src/supply/supply.ts";

const nominal = { voltage_V: 240, frequency_Hz: 60 } as const;

const found = (spec: SupplySpec) => {
  const result = supplyFrom(spec, "panel");
  if (Array.isArray(result)) throw new Error(result.map(issueText).join("\n"));
  return result;
};

const problems = (spec: unknown) => {
  const result = supplyFrom(spec as SupplySpec);
  return Array.isArray(result) ? result.map(issueText) : [];
};

const magnitude = ({ r_ohm, x_ohm }: SupplyFound) => Math.hypot(r_ohm, x_ohm);

function expectInRange({ range, r_ohm, x_ohm }: SupplyFound) {
  expect(range).toBeDefined();
  expect(range!.r_ohm[0]).toBeLessThanOrEqual(r_ohm);
  expect(range!.r_ohm[1]).toBeGreaterThanOrEqual(r_ohm);
  expect(range!.x_ohm[0]).toBeLessThanOrEqual(x_ohm);
  expect(range!.x_ohm[1]).toBeGreaterThanOrEqual(x_ohm);
}

describe("supplyFrom", () => {
  it("draws the fault current it was given into a bolted fault, at that angle (invariant, fixed seed)", () => {
    const current = fc.double({ min: 50, max: 50000, noNaN: true });
    fc.assert(
      fc.property(current, fc.double({ min: 0, max: 20, noNaN: true }), (faultCurrent_A, xOverR) => {
        const { value, assumptions } = found({ from: "fault current", ...nominal, faultCurrent_A, xOverR });
        expect(240 / magnitude(value) / faultCurrent_A).toBeCloseTo(1, 12);
        expect(value.x_ohm).toBeCloseTo(xOverR * value.r_ohm, 12);
        expect(assumptions).toEqual([]);
        expectInRange(found({ from: "fault current", ...nominal, faultCurrent_A }).value);
      }),
      { seed: 20266, numRuns: 200 },
    );
  });

  it("takes 25 kVA of 2 % as 0.0461 ohm and adds the service loop (closed form)", () => {
    const rating = { rating_VA: 25000, impedance_percent: 2, xOverR: 1.5 };
    const alone = found({ from: "utility transformer", ...nominal, ...rating }).value;
    expect(magnitude(alone)).toBeCloseTo(0.04608, 10);
    expect(alone.range).toBeUndefined();
    const service = {
      conductor: "2 AWG Al",
      length_m: 30,
      temperature_C: 30,
      run: "plastic conduit",
    } as const;
    const both = found({ from: "utility transformer", ...nominal, ...rating, service }).value;
    // 1.02 x 0.028264 ohm mm2/m x 1.0403 / 33.63 mm2, out and back.
    expect(both.r_ohm - alone.r_ohm).toBeCloseTo((2 * 30 * 1.02 * 0.028264 * 1.0403) / 33.631, 6);
    expect(both.x_ohm - alone.x_ohm).toBeCloseTo((2 * 30 * 0.045) / 304.8, 9);
  });

  it("says what it assumed of a utility transformer", () => {
    const { value, assumptions } = found({ from: "utility transformer", ...nominal, rating_VA: 25000 });
    expectInRange(value);
    expect(assumptions.map(({ part, what, value: text }) => `${part}, ${what}: ${text}`)).toEqual([
      "panel, network ahead of the utility transformer: stiff",
      "panel, utility transformer impedance: 2 %",
      "panel, ratio X/R: 1",
      "panel, service conductors: none",
    ]);
  });

  it("gives a generator its ohms per unit of V squared over S (closed form), a ceiling above its rated load", () => {
    const { value, assumptions } = found({
      from: "generator",
      ...nominal,
      rating_VA: 7200,
      transientReactance_pu: 0.25,
      subtransientReactance_pu: 0.15,
      fieldCeiling: 1.5,
    });
    // |1 + (0.03 + 1.8j)(0.8 - 0.6j)| = |2.104 + 1.422j|
    const field = Math.hypot(2.104, 1.422);
    expect(value.x_ohm).toBeCloseTo(2, 12);
    const { source } = value;
    if (source?.is !== "generator") throw new Error("no generator");
    expect(source).toMatchObject({ rating_VA: 7200, fieldTime_s: 0.6, recovery_s: 2.5 });
    expect(source.synchronous_ohm).toBeCloseTo(14.4, 12);
    expect(source.ceiling).toBeCloseTo(1.5 * field, 12);
    expectInRange(value);
    expect(assumptions.map(({ what }) => what)).toEqual([
      "engine speed",
      "generator resistance",
      "synchronous reactance",
      "open-circuit time constant of the field",
      "regulator recovery",
    ]);
    const plain = found({ from: "generator", ...nominal, rating_VA: 7200 });
    expect(plain.assumptions).toHaveLength(7);
    expectInRange(plain.value);
  });

  it("gives an inverter its current limit, and a short circuit that current (closed form)", () => {
    const { value, assumptions } = found({
      from: "inverter",
      ...nominal,
      continuous_VA: 4800,
      surgeFactor: 3,
      surge_s: 8,
      stops_s: 0.5,
    });
    expect(value.source).toEqual({
      is: "inverter",
      continuous_A: 20,
      limit_A: 60,
      surge_s: 8,
      stops_s: 0.5,
    });
    expect(240 / magnitude(value)).toBeCloseTo(60, 12);
    expect(assumptions).toEqual([]);
    const plain = found({ from: "inverter", ...nominal, continuous_VA: 4800 });
    expectInRange(plain.value);
    expect(plain.assumptions).toHaveLength(3);
  });

  it("leaves ohms that are given outright alone", () => {
    const { value, assumptions } = found({
      from: "impedance",
      ...nominal,
      impedance: { r_ohm: 0.06, x_ohm: 0.03 },
    });
    expect(value).toEqual({ ...nominal, r_ohm: 0.06, x_ohm: 0.03 });
    expect(assumptions).toEqual([]);
  });

  it("reports everything wrong at once", () => {
    const service = { conductor: "2 AVG Al", length_m: 0 };
    expect(
      problems({
        from: "utility transformer",
        voltage_V: 0,
        frequency_Hz: Number.NaN,
        rating_VA: -1,
        impedance_percent: 200,
        xOverR: -2,
        service,
      }).map((text) => text.split(":")[0]),
    ).toEqual([
      "voltage",
      "frequency",
      "rating",
      "impedance",
      "xOverR",
      "service.conductor",
      "service.length",
    ]);
  });

  it("refuses what cannot be, each with its reason", () => {
    expect(problems({ from: "fault curent", ...nominal })[0]).toContain('did you mean "fault current"?');
    expect(problems({ from: undefined, ...nominal })[0]).toContain("received undefined");
    expect(problems({ from: "fault current", ...nominal, faultCurrent_A: 0 })).toEqual([
      'faultCurrent: expected a fault current above 0 to 1000000 A, as "1.8 kA"; received 0 A',
    ]);
    const generator = { from: "generator", ...nominal, rating_VA: 7000, transientReactance_pu: 0.2 };
    expect(problems({ ...generator, subtransientReactance_pu: 0.3 })[0]).toContain("from 0.01 to 0.2");
    expect(problems({ ...generator, regulatorRecovery_s: -1 })).toHaveLength(1);
    expect(problems({ ...generator, synchronousReactance_pu: 0.2 })[0]).toContain("above 0.2 to 5");
    expect(problems({ ...generator, fieldTime_s: 0, fieldCeiling: 0.9 })).toHaveLength(2);
    expect(
      problems({
        from: "inverter",
        ...nominal,
        continuous_VA: 4800,
        surgeFactor: 0.5,
        surge_s: 0,
        stops_s: -1,
      }),
    ).toHaveLength(3);
    expect(problems({ from: "impedance", ...nominal, impedance: { r_ohm: -0.1 } })).toHaveLength(2);
    expect(problems({ from: "impedance", ...nominal })).toHaveLength(2);
  });
});
