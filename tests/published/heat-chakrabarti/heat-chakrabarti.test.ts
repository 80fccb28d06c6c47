import { bodyOfMass } from "@startgap/study";
import { expect, it } from "vitest";
import data from "./data.json";

it("Chakrabarti, problem 4.1.22: final rise and time constant of a motor (published, 0.5 %)", () => {
  const got = bodyOfMass({
    loss_W: data.power_W * (1 / data.efficiency - 1),
    area_m2: Math.PI * data.diameter_m * data.length_m,
    film_Wpm2K: data.film_Wpm2K,
    mass_kg: data.mass_kg,
    heat_JpkgK: data.heat_JpkgK,
  });
  expect(Math.abs(got.end_K / data.end_K - 1)).toBeLessThan(0.005);
  expect(Math.abs(got.tau_s / 3600 / data.tau_h - 1)).toBeLessThan(0.005);
});
