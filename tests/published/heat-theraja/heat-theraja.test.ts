import { fromTwoReadings, riseAfter_K, settledSwing, shortTimeFactor } from "@startgap/study";
import { describe, expect, it } from "vitest";
import data from "./data.json";

const MINUTE_s = 60;
const HOUR_s = 3600;

describe("Theraja, vol. III, ch. 45", () => {
  for (const { example, continuous, tau_min, time_min, shortTime, tolerance } of data.shortTime) {
    it(`Example ${example}: short-time rating (published, ${100 * tolerance} %)`, () => {
      const got = continuous * shortTimeFactor(tau_min * MINUTE_s, time_min * MINUTE_s);
      expect(Math.abs(got / shortTime - 1)).toBeLessThan(tolerance);
    });
  }

  const { cycle } = data;
  it("Example 45.11: rise at the end of the first pause (published, 0.2 %)", () => {
    const warm = riseAfter_K(0, cycle.end_K, cycle.heating_h * HOUR_s, cycle.on_min * MINUTE_s);
    const cooled = riseAfter_K(warm, 0, cycle.cooling_h * HOUR_s, cycle.off_min * MINUTE_s);
    expect(Math.abs(cooled / cycle.afterFirst_K - 1)).toBeLessThan(0.002);
  });

  it("Example 45.11: the swing that it settles at (closed form), and five hundred cycles of it (invariant)", () => {
    const [heating_s, cooling_s] = [cycle.heating_h * HOUR_s, cycle.cooling_h * HOUR_s];
    const [on_s, off_s] = [cycle.on_min * MINUTE_s, cycle.off_min * MINUTE_s];
    const swing = settledSwing({ end_K: cycle.end_K, on_s, off_s, heating_s, cooling_s });
    expect(swing.low_K).toBeCloseTo(cycle.low_K, 2);
    expect(swing.high_K).toBeCloseTo(cycle.high_K, 2);
    let rise = 0;
    for (let n = 0; n < 500; n++) {
      const warm = riseAfter_K(rise, cycle.end_K, heating_s, on_s);
      rise = riseAfter_K(warm, 0, cooling_s, off_s);
    }
    expect(rise).toBeCloseTo(swing.low_K, 9);
  });

  it("Example 45.13: final rise and time constant from two readings (published, print)", () => {
    const { first_K, second_K, time_h, end_K, tau_h } = data.readings;
    const got = fromTwoReadings(first_K, second_K, time_h * HOUR_s);
    expect(got.end_K).toBeCloseTo(end_K, 9);
    expect(got.tau_s / HOUR_s).toBeCloseTo(tau_h, 3);
  });

  it("refuses readings that do not level off", () => {
    expect(() => fromTwoReadings(25, 50, 3600)).toThrow(RangeError);
    expect(() => fromTwoReadings(25, 20, 3600)).toThrow(RangeError);
    expect(() => riseAfter_K(0, 1, 0, 1)).toThrow("invalid tau_s: 0");
    expect(() => riseAfter_K(0, 1, 1, -1)).toThrow("invalid time_s: -1");
  });
});
