import { type SupplySpec, seenFromLeg, supplyFrom, transformerFrom } from "@startgap/cabinet";
import type { Impedance } from "@startgap/circuit";
import { describe, it } from "vitest";
import { expectPrinted } from "../transformers-support/printed.ts";
import data from "./data.json";

/** Dip at a locked rotor of fixed impedance behind a supply, as a fraction of the open voltage. */
function dipAt(supply: Impedance, motor: Impedance): number {
  const total = Math.hypot(supply.r_ohm + motor.r_ohm, supply.x_ohm + motor.x_ohm);
  return 1 - Math.hypot(motor.r_ohm, motor.x_ohm) / total;
}

function lockedRotor(voltage_V: number, drawn_VA: number, powerFactor: number): Impedance {
  const z_ohm = voltage_V ** 2 / drawn_VA;
  return { r_ohm: z_ohm * powerFactor, x_ohm: z_ohm * Math.sqrt(1 - powerFactor ** 2) };
}

function impedanceOf(spec: SupplySpec): Impedance {
  const found = supplyFrom(spec);
  if (Array.isArray(found)) throw new Error("refused");
  return found.value;
}

const nominal = { voltage_V: 240, frequency_Hz: 60 } as const;

describe("dip on motor start", () => {
  it("by short-circuit power with equal angles, IEEE Std 141 section 3.9 (from memory) (published, print)", () => {
    for (const { share, printed_percent } of data.rule) {
      const supply = impedanceOf({ from: "fault current", ...nominal, faultCurrent_A: 1000, xOverR: 0.75 });
      const motor = lockedRotor(240, share * 240 * 1000, 0.8);
      expectPrinted(100 * dipAt(supply, motor), printed_percent);
    }
  });

  it("with real angles behind a utility transformer (independent code, last digit)", () => {
    for (const { motor_VA, powerFactor, dip_percent, ...unit } of data.angles) {
      const supply = impedanceOf({ from: "utility transformer", ...nominal, ...unit });
      expectPrinted(100 * dipAt(supply, lockedRotor(240, motor_VA, powerFactor)), dip_percent);
    }
  });

  it("at a leg of a 3 kVA unit of 4 %: 4.02 % (closed form)", () => {
    const { rating_VA, impedance_percent, motor_VA, dip_percent } = data.leg;
    const unit = {
      is: "autotransformer",
      windings_V: [120, 120],
      rating_VA,
      impedance_percent,
      xOverR: 0.75,
    } as const;
    const found = transformerFrom(unit);
    if (Array.isArray(found)) throw new Error("refused");
    expectPrinted(
      100 * dipAt(seenFromLeg([120, 120], found.value), lockedRotor(120, motor_VA, 0.8)),
      dip_percent,
    );
  });
});
