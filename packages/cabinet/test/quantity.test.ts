import { describe, expect, it } from "vitest";
import { isRange, quantityOf } from "../src/quantity.ts";
import { type DimensionName, dimensions, unitNamed } from "../src/units.ts";

const read = (text: string, dimension: DimensionName) => quantityOf(text, dimensions[dimension]);

function nominal(text: string, dimension: DimensionName): number {
  const found = read(text, dimension);
  if (!isRange(found)) throw new Error(`${text}: ${found.flaw}`);
  expect(found.low).toBe(found.high);
  return found.nominal;
}

/** Closed form: each unit by its definition (NIST SP 811, appendix B.8, and the SI brochure), in SI. */
const exact: readonly [string, DimensionName, number][] = [
  ["240 V", "voltage", 240],
  ["240V", "voltage", 240],
  ["0.24 kV", "voltage", 240],
  ["+12 v", "voltage", 12],
  ["1.8 kA", "current", 1800],
  ["25 amps", "current", 25],
  ["350 mA", "current", 0.35],
  ["66.8 ohm", "resistance", 66.8],
  ["66.8 Ω", "resistance", 66.8],
  ["66.8 \u2126", "resistance", 66.8],
  ["35 mΩ", "resistance", 0.035],
  ["1.5 hp", "power", 1118.549807],
  ["1/4 hp", "power", 186.4249679],
  ["1 1/2 HP", "power", 1118.549807],
  ["1-1/2 hp", "power", 1118.549807],
  ["1½ hp", "power", 1118.549807],
  ["¾ hp", "power", 559.2749037],
  ["1.1 kW", "power", 1100],
  ["3 kVA", "apparentPower", 3000],
  ["40 VA", "apparentPower", 40],
  ["2 kvar", "reactivePower", 2000],
  ["400 uF", "capacitance", 400e-6],
  ["400 µF", "capacitance", 400e-6],
  ["400 \u03bcF", "capacitance", 400e-6],
  ["400 MFD", "capacitance", 400e-6],
  ["60 Hz", "frequency", 60],
  ["60 hz", "frequency", 60],
  ["20 ms", "time", 0.02],
  ["5 min", "time", 300],
  ["1 h", "time", 3600],
  ["40 ft", "length", 12.192],
  ["12 in", "length", 0.3048],
  ["85 m", "length", 85],
  ["2.5 mm2", "area", 2.5e-6],
  ["2.5 mm²", "area", 2.5e-6],
  ["250 kcmil", "area", 1.266768698e-4],
  ["1725 rpm", "speed", 1725],
  ["180.641578 rad/s", "speed", 1725],
  ["4 N m", "torque", 4],
  ["4 N·m", "torque", 4],
  ["4 Nm", "torque", 4],
  ["1 lb ft", "torque", 1.355817948],
  ["1 ft-lb", "torque", 1.355817948],
  ["16 oz-in", "torque", 0.112984829],
  ["0.0146 kg m2", "inertia", 0.0146],
  ["0.0146 kg·m²", "inertia", 0.0146],
  ["0.0146 kg*m^2", "inertia", 0.0146],
  ["1 lb ft2", "inertia", 0.04214011009],
  ["1 lb-ft²", "inertia", 0.04214011009],
  ["85 degC", "temperature", 85],
  ["85 °C", "temperature", 85],
  ["185 degF", "temperature", 85],
  ["358.15 K", "temperature", 85],
  ["100 psi", "pressure", 689475.7293],
  ["1 bar", "pressure", 1e5],
  ["4.5 %", "ratio", 0.045],
  ["1e-3 A", "current", 1e-3],
  ["2.5E2 A", "current", 250],
];

describe("a quantity", () => {
  it.each(exact)("%s (closed form, 1e-6)", (text, dimension, si) => {
    expect(Math.abs(nominal(text, dimension) - si)).toBeLessThanOrEqual(1e-6 * Math.abs(si));
  });

  /** Closed form. */
  it.each([
    ["95 A +- 10 %", "current", 95, 85.5, 104.5],
    ["95 A ± 10 %", "current", 95, 85.5, 104.5],
    ["95 A +/- 5 A", "current", 95, 90, 100],
    ["95 ± 5 A", "current", 95, 90, 100],
    ["2 kA +- 500 A", "current", 2000, 1500, 2500],
    ["3 s .. 5 s", "time", 4, 3, 5],
    ["3 .. 5 s", "time", 4, 3, 5],
    ["3..5s", "time", 4, 3, 5],
    ["500 ms .. 2 s", "time", 1.25, 0.5, 2],
    ["4.5 % +- 10 %", "ratio", 0.045, 0.0405, 0.0495],
    ["30 degC +- 9 degF", "temperature", 30, 25, 35],
    ["20 degC .. 40 degC", "temperature", 30, 20, 40],
  ] as const)("%s is a range (closed form)", (text, dimension, middle, low, high) => {
    const found = read(text, dimension);
    if (!isRange(found)) throw new Error(found.flaw);
    expect(found.nominal).toBeCloseTo(middle, 9);
    expect(found.low).toBeCloseTo(low, 9);
    expect(found.high).toBeCloseTo(high, 9);
  });

  it.each([
    ["30", "no unit"],
    ["30 V", "unknown unit"],
    ["30 MA", "unknown unit"],
    ["30 A A", "unknown unit"],
    ["5 A .. 3 A", "upside down"],
    ["NaN A", "not a quantity"],
    ["Infinity A", "not a quantity"],
    ["-Infinity A", "not a quantity"],
    ["1e999 A", "not a quantity"],
    ["1e-999 A", "not a quantity"],
    ["1e99999 A", "not a quantity"],
    ["-0 A", "not a quantity"],
    ["0x10 A", "unknown unit"],
    ["1,5 A", "unknown unit"],
    ["1/0 A", "unknown unit"],
    ["A", "not a quantity"],
    ["", "not a quantity"],
    ["3 A +- -1 A", "not a quantity"],
    ["3 A +- 10", "no unit"],
    ["3 A +-", "not a quantity"],
    ["..", "not a quantity"],
    [".. 5 A", "not a quantity"],
  ])("%s is none: %s", (text, flaw) => {
    expect(read(text, "current")).toMatchObject({ flaw });
  });

  it("takes no percentage of a temperature, which would depend on the scale", () => {
    expect(read("30 degC +- 10 %", "temperature")).toMatchObject({ flaw: "not a quantity" });
  });

  it("tells a thousandth from a million, and lets other capitals pass", () => {
    expect(unitNamed(dimensions.current, "MA")).toBeUndefined();
    expect(unitNamed(dimensions.current, "KA")?.name).toBe("kA");
    expect(unitNamed(dimensions.time, "Ms")).toBeUndefined();
  });

  it("knows each spelling of each unit once (a second one would be hidden)", () => {
    for (const dimension of Object.values(dimensions)) {
      const names = dimension.units.flatMap((unit) => [unit.name, ...unit.also]);
      for (const unit of dimension.units) {
        for (const name of [unit.name, ...unit.also]) expect(unitNamed(dimension, name)).toBe(unit);
      }
      expect(new Set(names).size).toBe(names.length);
    }
  });
});
