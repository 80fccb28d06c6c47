import { legCurrents, sidesAt } from "@startgap/cabinet";
import { describe, it } from "vitest";
import { expectPrinted } from "../transformers-support/printed.ts";
import data from "./data.json";

describe("Singh: currents of an ideal autotransformer", () => {
  for (const { high_V, low_V, load_A, printed } of data.rows) {
    it(`${high_V} to ${low_V} V (published, print)`, () => {
      const unit = {
        rating_VA: 1,
        common_V: low_V,
        series_V: high_V - low_V,
        connection: "additive",
      } as const;
      const sides = sidesAt(unit, "high", low_V * load_A);
      expectPrinted(sides.output_A, printed.load_A);
      expectPrinted(sides.input_A, printed.supply_A);
      expectPrinted(sides.commonWinding_A, printed.common_A);
      const legs = legCurrents([low_V, high_V - low_V], { re: load_A, im: 0 }, { re: 0, im: 0 });
      expectPrinted(legs.input_A.re, printed.supply_A);
      expectPrinted(Math.abs(legs.firstWinding_A.re), printed.common_A);
    });
  }

  it("5 kW at 125 V is the 40 A of the first row (published, print)", () => {
    expectPrinted(5000 / 125, data.rows[0]!.printed.load_A);
  });
});
