import { lossAt_W, ratedLosses, reconnected, type TransformerSpec, transformerFrom } from "@startgap/cabinet";
import { describe, it } from "vitest";
import { expectPrinted } from "../transformers-support/printed.ts";
import data from "./data.json";

describe("Kosow, Electric Machinery and Transformers, 2nd ed.", () => {
  it("Example 14-30: through, transformed and conducted volt-amperes (published, print)", () => {
    for (const { common_V, series_V, printed } of data.reconnections) {
      const ratings = reconnected({ rating_VA: 1000, common_V, series_V, connection: "additive" });
      expectPrinted(ratings.through_VA / 1000, printed.through_kVA);
      expectPrinted(ratings.transformed_VA / 1000, printed.transformed_kVA);
      expectPrinted(ratings.conducted_VA / 1000, printed.conducted_kVA);
    }
  });

  it("Examples 14-20 and 14-31: energy over a day, from the two tests (published, print)", () => {
    const { rating_VA, windings_V, shortCircuit, openCircuit } = data.unit as unknown as TransformerSpec;
    const found = transformerFrom({ is: "transformer", rating_VA, windings_V, shortCircuit, openCircuit });
    if (Array.isArray(found)) throw new Error("refused");
    const losses = ratedLosses(found.value, found.value.excitation, {
      fed_V: 2300,
      winding_V: 2300,
      rating_VA: 500000,
    });
    const total = (energy_Wh: (part: (typeof data.day)[number]) => number) =>
      data.day.reduce((sum, part) => sum + energy_Wh(part), 0) / 1000;
    const core_kWh = total(({ hours }) => losses.core_W * hours);
    const lost_kWh = total(({ loading, hours }) => lossAt_W(losses, loading) * hours);
    const delivered_kWh = total(({ loading, hours, powerFactor }) => 500000 * loading * powerFactor * hours);
    const { printed } = data;
    expectPrinted(core_kWh, printed.core_kWh);
    expectPrinted(lost_kWh - core_kWh, printed.winding_kWh);
    expectPrinted(delivered_kWh, printed.delivered_kWh);
    expectPrinted((100 * delivered_kWh) / (delivered_kWh + lost_kWh), printed.efficiency_percent);
  });
});
