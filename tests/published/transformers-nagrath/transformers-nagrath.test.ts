import { efficiencyAt, reconnected } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import { expectPrinted } from "../transformers-support/printed.ts";
import data from "./data.json";

describe("Nagrath and Kothari, Electric Machines, chapter 3", () => {
  it("2200 to 2000 V: inductive and conductive parts, efficiency (published, print)", () => {
    const { printed, rating_VA, common_V, series_V, core_W, winding_W, powerFactor } = data.parts;
    const ratings = reconnected({ rating_VA, common_V, series_V, connection: "additive" });
    expectPrinted(ratings.through_VA / 1000, printed.through_kVA);
    expectPrinted(ratings.transformed_VA / 1000, printed.inductive_kVA);
    expectPrinted(ratings.conducted_VA / 1000, printed.conductive_kVA);
    const efficiency = efficiencyAt({ core_W, winding_W }, ratings.through_VA, 1, powerFactor);
    expectPrinted(100 * efficiency, printed.efficiency_percent);
  });

  it("360 V from a 240/120 V unit: the same loss under three times the load (published, print)", () => {
    const { printed, rating_VA, common_V, series_V, efficiency, powerFactor } = data.gain;
    const ratings = reconnected({ rating_VA, common_V, series_V, connection: "additive" });
    const losses = { core_W: 0, winding_W: rating_VA * (1 / efficiency - 1) };
    expect(efficiencyAt(losses, rating_VA, 1, 1)).toBeCloseTo(efficiency, 12);
    expectPrinted(ratings.high_V, printed.high_V);
    expectPrinted(ratings.through_VA / 1000, printed.through_kVA);
    expectPrinted(100 * efficiencyAt(losses, ratings.through_VA, 1, powerFactor), printed.efficiency_percent);
  });
});
