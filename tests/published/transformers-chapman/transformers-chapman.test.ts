import { reconnected, seenFromLeg, sidesAt, throughRating_VA, transformerFrom } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import { expectPrinted } from "../transformers-support/printed.ts";
import data from "./data.json";

const additive = (rating_VA: number, common_V: number, series_V: number) =>
  ({ rating_VA, common_V, series_V, connection: "additive" }) as const;

function leakageOf(windings_V: readonly [number, number], rating_VA: number, r_pu: number, x_pu: number) {
  const impedance_percent = 100 * Math.hypot(r_pu, x_pu);
  const found = transformerFrom({
    is: "autotransformer",
    windings_V,
    rating_VA,
    impedance_percent,
    xOverR: x_pu / r_pu,
  });
  if (Array.isArray(found)) throw new Error("refused");
  return found.value;
}

describe("Chapman, Electric Machinery Fundamentals", () => {
  it("Example 2-7 (from memory): 132 V, 1100 VA, gain 11 (published, print)", () => {
    const { printed, ...plate } = data.stepUp;
    const unit = additive(plate.rating_VA, plate.common_V, plate.series_V);
    const { output_V, input_V } = sidesAt(unit, "low", throughRating_VA(unit));
    expect(input_V).toBe(120);
    expectPrinted(output_V, printed.output_V);
    expectPrinted(throughRating_VA(unit), printed.through_VA);
    expectPrinted(throughRating_VA(unit) / unit.rating_VA, printed.gain);
  });

  it("Example 2-8 (from memory): per-unit impedance falls with the gain of the reconnection (published, print)", () => {
    const { printed, rating_VA, r_pu, x_pu } = data.impedance;
    const leakage = leakageOf([12000, 1200], rating_VA, r_pu, x_pu);
    const through_VA = throughRating_VA(additive(rating_VA, 12000, 1200));
    const seen = seenFromLeg([12000, 1200], leakage);
    const base_ohm = 12000 ** 2 / through_VA;
    expectPrinted(through_VA / 1000, printed.through_kVA);
    expectPrinted(seen.r_ohm / base_ohm, printed.r_pu);
    expectPrinted(seen.x_ohm / base_ohm, printed.x_pu);
  });

  it("section 2.9, own numbers: 3 kVA of 4 % is 6 kVA of 2 % at a leg, 0.048 ohm (closed form)", () => {
    const leakage = leakageOf([120, 120], 3000, 0.032, 0.024);
    const seen = seenFromLeg([120, 120], leakage);
    const through_VA = throughRating_VA(additive(3000, 120, 120));
    expect(through_VA).toBe(6000);
    expect(Math.hypot(seen.r_ohm, seen.x_ohm)).toBeCloseTo(0.048, 12);
    expect(Math.hypot(seen.r_ohm, seen.x_ohm) / (120 ** 2 / through_VA)).toBeCloseTo(0.02, 12);
    const { input_A, output_A, seriesWinding_A, commonWinding_A } = sidesAt(
      additive(3000, 120, 120),
      "high",
      6000,
    );
    expect([input_A, output_A, seriesWinding_A, commonWinding_A]).toEqual([25, 50, 25, 25]);
  });

  it("Problem 2-15: one phase of a 2000 kVA bank (published, print)", () => {
    const { printed, high_V, low_V, through_VA } = data.bank;
    const phase = { common_V: low_V / Math.sqrt(3), series_V: (high_V - low_V) / Math.sqrt(3) };
    const advantage = throughRating_VA(additive(1, phase.common_V, phase.series_V));
    const winding_VA = through_VA / 3 / advantage;
    const ratings = reconnected(additive(winding_VA, phase.common_V, phase.series_V));
    expectPrinted(phase.common_V / phase.series_V, printed.turns);
    expectPrinted(advantage, printed.advantage);
    expectPrinted(winding_VA / 1000, printed.winding_kVA);
    expectPrinted(phase.common_V, printed.common_V);
    expectPrinted(phase.series_V, printed.series_V);
    expect(ratings.high_V).toBeCloseTo(high_V / Math.sqrt(3), 6);
  });

  it("Problems 2-17 and 2-18: 600 V to 120 V and to 480 V with one 10 kVA unit (published, print)", () => {
    for (const { common_V, series_V, printed } of data.arrangements) {
      const unit = additive(10000, common_V, series_V);
      const { input_V, input_A, output_A } = sidesAt(unit, "high", throughRating_VA(unit));
      expect(input_V).toBe(600);
      expectPrinted(throughRating_VA(unit) / 1000, printed.through_kVA);
      expectPrinted(input_A, printed.input_A);
      expectPrinted(output_A, printed.output_A);
    }
  });

  it("Problem 6-26: an autotransformer starter draws the motor's current over the ratio (published, print)", () => {
    const { printed, line_V, power_hp, efficiency, powerFactor, torque, current } = data.starter;
    const rated_A = (power_hp * 746) / (Math.sqrt(3) * line_V * efficiency * powerFactor);
    const motor_V = line_V / Math.sqrt(torque);
    const motor_A = (current * rated_A * motor_V) / line_V;
    const unit = additive(1, motor_V / Math.sqrt(3), (line_V - motor_V) / Math.sqrt(3));
    const { input_V, output_V, input_A, output_A } = sidesAt(
      unit,
      "high",
      (motor_V / Math.sqrt(3)) * motor_A,
    );
    expectPrinted(motor_V, printed.motor_V);
    expectPrinted(rated_A, printed.rated_A);
    expectPrinted(output_A, printed.motor_A);
    expectPrinted(input_V / output_V, printed.ratio);
    expectPrinted(input_A, printed.line_A);
    expectPrinted(output_A / rated_A, printed.multiple);
  });
});
