import { reconnected } from "@startgap/cabinet";
import { it } from "vitest";
import { expectPrinted } from "../transformers-support/printed.ts";
import data from "./data.json";

it("Theraja and Theraja: 50 kVA, 2400/240 V carries 550 kVA through (published, print)", () => {
  const { printed, rating_VA, common_V, series_V } = data;
  const ratings = reconnected({ rating_VA, common_V, series_V, connection: "additive" });
  expectPrinted(ratings.through_VA / 1000, printed.through_kVA);
  expectPrinted(ratings.transformed_VA / 1000, printed.transformed_kVA);
  expectPrinted(ratings.conducted_VA / 1000, printed.conducted_kVA);
});
