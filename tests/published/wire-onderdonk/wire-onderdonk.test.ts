import { gaugeArea_m2, onderdonkFusing_A } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import data from "./data.json";

describe("Onderdonk's formula (from memory)", () => {
  for (const { gauge, time_s, current_A } of data.rows) {
    it(`${gauge} AWG in ${time_s} s (independent code, 0.1 %)`, () => {
      const got = onderdonkFusing_A(gaugeArea_m2(gauge), time_s, data.ambient_C);
      expect(Math.abs(got / current_A - 1)).toBeLessThan(0.001);
    });
  }

  it("has 234 + Ta, not 234 - Ta: 168.9 A and not 177.8 A (independent code, 0.1 %)", () => {
    const { circularMils, time_s, ambient_C, right_A, wrong_A } = data.copy;
    const got = onderdonkFusing_A(circularMils * (Math.PI / 4) * 0.0000254 ** 2, time_s, ambient_C);
    expect(Math.abs(got / right_A - 1)).toBeLessThan(0.001);
    expect(Math.abs(got / wrong_A - 1)).toBeGreaterThan(0.04);
  });
});
