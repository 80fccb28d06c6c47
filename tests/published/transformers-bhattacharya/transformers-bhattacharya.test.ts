import { legCurrents, sidesAt } from "@startgap/cabinet";
import { it } from "vitest";
import { expectPrinted } from "../transformers-support/printed.ts";
import data from "./data.json";

it("Bhattacharya, Electrical Machines: supply and common-winding current (published, print)", () => {
  const { printed, high_V, low_V, load_A } = data;
  const unit = { rating_VA: 1, common_V: low_V, series_V: high_V - low_V, connection: "additive" } as const;
  const sides = sidesAt(unit, "high", low_V * load_A);
  expectPrinted(sides.input_A, printed.supply_A);
  expectPrinted(sides.commonWinding_A, printed.common_A);
  const legs = legCurrents([low_V, high_V - low_V], { re: load_A, im: 0 }, { re: 0, im: 0 });
  expectPrinted(legs.input_A.re, printed.supply_A);
  expectPrinted(Math.abs(legs.firstWinding_A.re), printed.common_A);
});
