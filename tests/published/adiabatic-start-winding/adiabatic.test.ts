import { adiabaticRise_K } from "@startgap/study";
import { describe, expect, it } from "vitest";
import data from "./data.json";

describe("copper from which no heat goes (published factors, 1 %)", () => {
  for (const { name, k, from_C, to_C } of data.rows) {
    it(`${name}: k = ${k} takes it from ${from_C} to ${to_C} degC, whatever the density`, () => {
      for (const density of [6, 60, 115]) {
        const rise = adiabaticRise_K(from_C, (k / density) ** 2, density);
        expect(Math.abs(rise / (to_C - from_C) - 1)).toBeLessThan(0.01);
      }
    });
  }

  it("two stretches heat as one of their length (closed form)", () => {
    const first = adiabaticRise_K(50, 0.7);
    expect(first + adiabaticRise_K(50 + first, 0.4)).toBeCloseTo(adiabaticRise_K(50, 1.1), 9);
  });
});
