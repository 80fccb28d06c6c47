import { reconnected } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import { expectPrinted } from "../transformers-support/printed.ts";
import data from "./data.json";

describe("Srivastava, Electrical Machines, Example 3.21", () => {
  it("from the rounded winding current of 6.8 A (published, print)", () => {
    for (const { common_V, series_V, printed } of data.rows) {
      const rating_VA = 220 * data.winding_A;
      const ratings = reconnected({ rating_VA, common_V, series_V, connection: "additive" });
      expectPrinted(ratings.high_V, printed.high_V);
      expectPrinted(ratings.low_V, printed.low_V);
      expectPrinted(ratings.seriesWinding_A, printed.series_A);
      expectPrinted(ratings.low_A, printed.low_A);
      expectPrinted(ratings.through_VA / 1000, printed.through_kVA);
    }
  });

  it("from the nameplate, 0.3 % above print (published, 0.3 %)", () => {
    for (const { common_V, series_V, printed } of data.rows) {
      const { through_VA } = reconnected({
        rating_VA: data.nameplate_VA,
        common_V,
        series_V,
        connection: "additive",
      });
      expect(through_VA / 1000 / Number(printed.through_kVA)).toBeGreaterThan(1);
      expect(through_VA / 1000 / Number(printed.through_kVA)).toBeLessThan(1.003);
    }
  });
});
