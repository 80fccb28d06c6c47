import { supplyFrom } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import data from "./data.json";

describe("Gönen, Electric Power Distribution System Engineering", () => {
  for (const { example, voltage_V, faultCurrent_A, motor_VA, printed_V, tolerance } of data.rows) {
    it(`Example ${example}: volts of dip on a 120 V base (published, ${100 * tolerance} %)`, () => {
      const found = supplyFrom({
        from: "fault current",
        voltage_V,
        frequency_Hz: 60,
        faultCurrent_A,
        xOverR: 1,
      });
      if (Array.isArray(found)) throw new Error("refused");
      const z_ohm = Math.hypot(found.value.r_ohm, found.value.x_ohm);
      const dip_V = (120 * (motor_VA / voltage_V) * z_ohm) / voltage_V;
      expect(Math.abs(dip_V / Number(printed_V) - 1)).toBeLessThan(tolerance);
    });
  }

  it("Example 7.4: the transformer term is 0.00668, not the printed 0.00215 (difference on record)", () => {
    const { rating_VA, voltage_V, r_pu, x_pu, current_A, powerFactor, ...told } = data.service;
    const found = supplyFrom({
      from: "utility transformer",
      voltage_V,
      frequency_Hz: 60,
      rating_VA,
      impedance_percent: 100 * Math.hypot(r_pu, x_pu),
      xOverR: x_pu / r_pu,
    });
    if (Array.isArray(found)) throw new Error("refused");
    const { r_ohm, x_ohm } = found.value;
    const term = (r_ohm * powerFactor + x_ohm * Math.sqrt(1 - powerFactor ** 2)) * (current_A / voltage_V);
    expect(term).toBeCloseTo(told.right, 5);
    // Where the slip comes from: the angle of 1.047 rad taken as 1.047 degrees.
    const slip = r_ohm * powerFactor + x_ohm * Math.sin((Math.acos(powerFactor) * Math.PI) / 180);
    expect(slip * (current_A / voltage_V)).toBeCloseTo(told.printed, 5);
    expect(term + told.line + told.conductors).toBeCloseTo(told.rightTotal, 4);
    expect(told.printed + told.line + told.conductors).toBeCloseTo(told.printedTotal, 4);
  });
});
