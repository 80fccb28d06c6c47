import { conductorNamed, conductorResistance_ohmPerM } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import data from "./data.json";

const wire = conductorNamed("12 AWG Cu");
if ("path" in wire) throw new Error(wire.expected);
const at = (temperature_C: number) => conductorResistance_ohmPerM(wire, temperature_C, "solid");

describe("IEC 60028 (from memory)", () => {
  it("temperature coefficient at 20 degC (published, 0.05 %)", () => {
    expect(Math.abs((at(120) / at(20) - 1) / 100 / data.coefficient_perK - 1)).toBeLessThan(0.0005);
  });

  it("temperature at which the straight line has no resistance left (published, 0.05 %)", () => {
    const zero_C = 20 - 100 / (at(120) / at(20) - 1);
    expect(Math.abs(zero_C / data.zero_C - 1)).toBeLessThan(0.0005);
  });

  it("the resistance of a winding as a thermometer, IEC 60076-2 (closed form, 0.05 K)", () => {
    const { from_C, from_ohm, to_ohm, to_C } = data.thermometer;
    const slope = (at(from_C + 1) - at(from_C)) / at(from_C);
    expect(Math.abs(from_C + (to_ohm / from_ohm - 1) / slope - to_C)).toBeLessThan(0.05);
  });
});
