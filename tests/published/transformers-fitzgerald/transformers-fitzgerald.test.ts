import {
  efficiencyAt,
  lossAt_W,
  ratedLosses,
  reconnected,
  regulationAt,
  type TransformerSpec,
  transformerFrom,
} from "@startgap/cabinet";
import { describe, it } from "vitest";
import { expectPrinted } from "../transformers-support/printed.ts";
import data from "./data.json";

const rating = { fed_V: 2400, winding_V: 2400, rating_VA: data.rating_VA };
const { shortCircuit, openCircuit, windings_V, rating_VA } = data as unknown as TransformerSpec;

function tested() {
  const found = transformerFrom({ is: "transformer", windings_V, rating_VA, shortCircuit, openCircuit });
  if (Array.isArray(found)) throw new Error("refused");
  return { ...found.value, losses: ratedLosses(found.value, found.value.excitation, rating) };
}

describe("Fitzgerald, Kingsley, Umans, 6th ed.", () => {
  it("Example 2.6 (from memory): tests to impedance, loss, efficiency and regulation (published, print)", () => {
    const { losses, ...leakage } = tested();
    const { printed, powerFactor } = data;
    expectPrinted(Math.hypot(leakage.r_ohm, leakage.x_ohm), printed.z_ohm);
    expectPrinted(leakage.r_ohm, printed.r_ohm);
    expectPrinted(lossAt_W(losses, 20.8 / (50000 / 2400)), printed.loss_W);
    expectPrinted(efficiencyAt(losses, data.rating_VA, 1, powerFactor), printed.efficiency);
    expectPrinted(100 * regulationAt(leakage, rating, 1, powerFactor), printed.regulation_percent);
  });

  it("Example 2.7: the same unit as a 2640 to 2400 V autotransformer (published, print)", () => {
    const { losses } = tested();
    const unit = {
      rating_VA: data.rating_VA,
      common_V: 2400,
      series_V: 240,
      connection: "additive",
    } as const;
    const { high_V, through_VA } = reconnected(unit);
    const { printedReconnected: printed } = data;
    expectPrinted(high_V, printed.high_V);
    expectPrinted(through_VA / 1000, printed.through_kVA);
    expectPrinted(100 * efficiencyAt(losses, through_VA, 1, data.powerFactor), printed.efficiency_percent);
  });
});
