import { reconnected } from "@startgap/cabinet";
import { it } from "vitest";
import { expectPrinted } from "../transformers-support/printed.ts";
import data from "./data.json";

it("15 kVA, 1100/220 V as 1320/1100 V: 90 kVA, six times the nameplate (published, print)", () => {
  const { printed, rating_VA, common_V, series_V } = data;
  const ratings = reconnected({ rating_VA, common_V, series_V, connection: "additive" });
  expectPrinted(ratings.high_V, printed.high_V);
  expectPrinted(ratings.through_VA / 1000, printed.through_kVA);
  expectPrinted(ratings.through_VA / rating_VA, printed.gain);
});
