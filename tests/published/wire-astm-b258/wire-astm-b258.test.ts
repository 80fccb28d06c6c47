import { gaugeArea_m2, gaugeDiameter_m } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import { expectPrinted } from "../transformers-support/printed.ts";
import data from "./data.json";

const circularMils = (gauge: number) => (gaugeDiameter_m(gauge) / 0.0000254) ** 2;

describe("ASTM B258", () => {
  it("ratio of neighbouring diameters (published, print)", () => {
    expectPrinted(gaugeDiameter_m(14) / gaugeDiameter_m(15), data.ratio);
  });

  for (const { gauge, diameter_mm, area_mm2, cmil } of data.rows) {
    it(`${gauge} AWG: diameter (published, print), area (from memory) (published, print)`, () => {
      expectPrinted(1e3 * gaugeDiameter_m(gauge), diameter_mm);
      expectPrinted(1e6 * gaugeArea_m2(gauge), area_mm2);
      expect(Math.abs(circularMils(gauge) - cmil)).toBeLessThan(Math.max(5, 0.001 * cmil));
    });
  }

  it("circular mils of the other sizes (from memory) (published, 5 or 0.1 %)", () => {
    for (const { gauge, cmil } of data.cmilMore) {
      expect(Math.abs(circularMils(gauge) - cmil)).toBeLessThan(Math.max(5, 0.001 * cmil));
    }
  });
});
