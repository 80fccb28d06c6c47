import { supplyFrom } from "@startgap/cabinet";
import { it } from "vitest";
import { expectPrinted } from "../transformers-support/printed.ts";
import data from "./data.json";

it("1000 kVA of 5.75 %: short-circuit power and the ratio of the start to it (published, print)", () => {
  const { printed, rating_VA, impedance_percent, motor_VA, divider_percent } = data;
  const spec = {
    from: "utility transformer",
    voltage_V: 480,
    frequency_Hz: 60,
    rating_VA,
    xOverR: 5,
  } as const;
  const found = supplyFrom({ ...spec, impedance_percent });
  if (Array.isArray(found)) throw new Error("refused");
  const shortCircuit_VA = 480 ** 2 / Math.hypot(found.value.r_ohm, found.value.x_ohm);
  expectPrinted(shortCircuit_VA / 1000, printed.shortCircuit_kVA);
  expectPrinted((100 * motor_VA) / shortCircuit_VA, printed.ratio_percent);
  expectPrinted((100 * motor_VA) / (shortCircuit_VA + motor_VA), divider_percent);
});
