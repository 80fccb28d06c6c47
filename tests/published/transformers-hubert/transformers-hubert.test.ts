import { reconnected } from "@startgap/cabinet";
import { it } from "vitest";
import { expectPrinted } from "../transformers-support/printed.ts";
import data from "./data.json";

it("Hubert, Electric Machines, Example 3.2: winding currents and through rating (published, print)", () => {
  const { printed, rating_VA, common_V, series_V } = data;
  const ratings = reconnected({ rating_VA, common_V, series_V, connection: "additive" });
  expectPrinted(ratings.seriesWinding_A, printed.series_A);
  expectPrinted(ratings.commonWinding_A, printed.common_A);
  expectPrinted(ratings.through_VA / 1000, printed.through_kVA);
});
