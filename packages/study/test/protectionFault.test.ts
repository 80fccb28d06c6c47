import { describe, expect, it } from "vitest";
import { faultAt } from "../src/protection/fault.ts";
import { situationsOf } from "../src/protection/situations.ts";
import { ratedInput_A } from "../src/protection/transformerFuse.ts";
import { autotransformer, cabinet, cable, load, supply } from "./support/protection.ts";

describe("bolted faults (closed form)", () => {
  it("at the supply and behind a cable: V/|Z|", () => {
    const circuit = cabinet(supply(240, 0.03, 0.04), cable("feeder", "panel", 0.27, 0.36));
    expect(faultAt(circuit, { part: "panel", leg: "first" }).current_A).toBeCloseTo(240 / 0.05, 1);
    expect(faultAt(circuit, { part: "feeder", leg: "first" }).current_A).toBeCloseTo(240 / 0.5, 3);
  });

  it("on one leg: the loop and the leakage count a quarter, the line carries half", () => {
    const circuit = cabinet(
      supply(240, 0.1, 0.2),
      cable("feeder", "panel", 0.3, 0.2),
      autotransformer("midpoint", "feeder", 0.2, 0.4),
      load("heater", "midpoint", 20),
    );
    const z = Math.hypot((0.4 + 0.2) / 4, (0.4 + 0.4) / 4);
    const fault = faultAt(circuit, { part: "midpoint", leg: "first" });
    expect(fault.current_A).toBeCloseTo(120 / z, 3);
    expect(fault.through_A("feeder")).toBeCloseTo(60 / z, 3);
    const across = faultAt(circuit, { part: "midpoint", leg: "both" });
    expect(across.current_A).toBeCloseTo(240 / Math.hypot(0.4, 0.4), 3);
  });
});

describe("rated input of two windings in series (closed form)", () => {
  it("of equal ones is double the nameplate over the whole voltage", () => {
    const unit = { windings_V: [120, 120], rating_VA: 3000 } as const;
    for (const legs of [
      { first: true, second: false },
      { first: false, second: true },
      { first: true, second: true },
    ])
      expect(ratedInput_A(unit, legs)).toBe(25);
  });

  it("of unequal ones loads both windings to their rating at once, whichever leg is loaded", () => {
    const unit = { windings_V: [120, 80], rating_VA: 2400 } as const;
    const [k1, k2] = [0.6, 0.4];
    const first = ratedInput_A(unit, { first: true, second: false });
    const leg_A = first / k1;
    expect(k2 * leg_A).toBeCloseTo(2400 / 120, 9);
    expect(k1 * leg_A).toBeCloseTo(2400 / 80, 9);
    const second = ratedInput_A(unit, { first: false, second: true });
    expect(k1 * (second / k2)).toBeCloseTo(2400 / 80, 9);
    expect(ratedInput_A(unit, { first: true, second: true })).toBe(Math.min(first, second));
  });
});

describe("steady situations (closed form)", () => {
  it("of heaters alone are dividers, whether motors run or stand", () => {
    const circuit = cabinet(supply(240, 1, 0), cable("feeder", "panel", 1, 0), load("heater", "feeder", 22));
    const { running, idle, allStanding, standing } = situationsOf(circuit);
    for (const s of [running, idle, allStanding]) {
      expect(s.current_A("heater")).toBeCloseTo(10, 9);
      expect(s.voltage_V("feeder")).toBeCloseTo(220, 9);
      expect(s.input_V("feeder")).toBeCloseTo(230, 9);
      expect(s.lost_W("feeder")).toBeCloseTo(100, 9);
    }
    expect(standing.size).toBe(0);
  });
});
