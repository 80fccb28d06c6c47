import { reconnected, turnsShares } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import { expectPrinted } from "../transformers-support/printed.ts";
import data from "./data.json";

describe("a 240/24 V unit in series with 208 V", () => {
  const { printed, rating_VA, input_V, nominalOutput_V } = data;
  const [first, second] = turnsShares([240, 24]);
  const series_V = (input_V * second) / first;
  // At 208 V the 24 V winding still carries its rated 41.67 A.
  const rated_VA = (rating_VA / 24) * series_V;
  const ratings = reconnected({ rating_VA: rated_VA, common_V: input_V, series_V, connection: "additive" });

  it("carries 41.67 A out and 46 A in (published, print)", () => {
    expectPrinted(ratings.seriesWinding_A, printed.series_A);
    expectPrinted(ratings.low_A, printed.input_A);
  });

  it("passes 9.53 kVA; the printed 9.58 takes the nominal 230 V for the 228.8 V there is (difference on record)", () => {
    expect(ratings.high_V).toBeCloseTo(228.8, 10);
    expect(ratings.through_VA / (1000 * Number(printed.through_kVA))).toBeCloseTo(0.995, 3);
    expectPrinted((ratings.seriesWinding_A * nominalOutput_V) / 1000, printed.through_kVA);
  });
});
