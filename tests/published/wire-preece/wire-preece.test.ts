import { gaugeDiameter_m, preeceFusing_A } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import { expectPrinted } from "../transformers-support/printed.ts";
import data from "./data.json";

describe("Preece's law", () => {
  it("handbook tables, 14 to 10 AWG (published, 0.5 %)", () => {
    for (const { gauge, current_A } of data.gauges) {
      expect(Math.abs(preeceFusing_A(gaugeDiameter_m(gauge)) / current_A - 1)).toBeLessThan(0.005);
    }
  });

  it("Raju, chapter 1: two copper wires (published, print)", () => {
    for (const { diameter_in, printed_A } of data.raju)
      expectPrinted(preeceFusing_A(0.0254 * diameter_in), printed_A);
  });

  for (const { where, share, from_A, printed_A } of data.ratios) {
    it(`${where}: by the ratio of the diameters (published, print)`, () => {
      const ratio = preeceFusing_A(share * 0.0008) / preeceFusing_A(0.0008);
      expectPrinted(from_A * ratio, printed_A);
    });
  }
});
