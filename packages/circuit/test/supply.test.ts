import { describe, expect, it } from "vitest";
import { kirchhoffResidual, plantOf, powerBalance } from "../src/index.ts";
import { cable, circuit, contactor, shunt, supply } from "./build.ts";
import { amperes, apart, phasor, plus, product, quotient, volts } from "./phasor.ts";

describe("supply and cable (closed form)", () => {
  it("divide the voltage by E/(1 + ZY), loop impedances in a row", () => {
    const plant = plantOf(
      circuit(
        supply(230, 0.3, 0.2),
        cable("feeder", "supply", 0.5, 0.1),
        cable("branch", "feeder", 0.2, 0.05),
        shunt("heater", "branch", 0.08, 0.03),
      ),
    );
    const y = phasor(0.08, -0.03);
    const expected = quotient(phasor(230), plus(phasor(1), product(phasor(1, 0.35), y)));
    expect(apart(volts(plant, "heater"), expected)).toBeLessThan(1e-13);
    for (const name of ["supply", "feeder", "branch"])
      expect(apart(amperes(plant, name), product(y, expected))).toBeLessThan(1e-14);
  });

  it("open circuit: full voltage everywhere, no current", () => {
    const plant = plantOf(circuit(supply(230, 0.3, 0.2), cable("feeder", "supply", 0.5)));
    expect(apart(volts(plant, "feeder"), phasor(230))).toBe(0);
    expect(apart(amperes(plant, "supply"), phasor(0))).toBe(0);
  });

  it("short circuit: E/Z", () => {
    const plant = plantOf(circuit(supply(120, 3, 4), cable("c", "supply", 0), shunt("bolt", "c", 1e9)));
    expect(Math.hypot(amperes(plant, "supply").re, amperes(plant, "supply").im)).toBeCloseTo(24, 6);
  });

  it("two loads share by their admittances; losses are I^2 R", () => {
    const plant = plantOf(
      circuit(
        supply(120, 0.5),
        shunt("a", "supply", 0.02),
        shunt("b", "supply", 0.06),
        shunt("c", "supply", 0),
      ),
    );
    const volt = 120 / (1 + 0.5 * 0.08);
    expect(amperes(plant, "a").re).toBeCloseTo(0.02 * volt, 13);
    expect(amperes(plant, "b").re).toBeCloseTo(0.06 * volt, 13);
    const balance = powerBalance(plant, [], plant.start().mode);
    expect(balance.lost_W).toBeCloseTo(0.5 * (0.08 * volt) ** 2 + 0.08 * volt ** 2, 9);
    expect(balance.residual).toBeLessThan(1e-14);
    expect(kirchhoffResidual(plant, [], plant.start().mode)).toBeLessThan(1e-14);
  });
});

describe("a circuit that is no tree", () => {
  it("is refused with what was expected", () => {
    expect(() => plantOf(circuit(supply(120), cable("a", "nothing", 1)))).toThrow(
      'invalid feeder: "nothing" (expected a part that feeds others)',
    );
    expect(() => plantOf(circuit(supply(120), cable("a", "b", 1), cable("b", "supply", 1)))).toThrow(
      RangeError,
    );
    expect(() => plantOf(circuit(supply(120), shunt("l", "supply", 1), cable("a", "l", 1)))).toThrow(
      RangeError,
    );
    expect(() => plantOf(circuit(contactor("c", "x", null)))).toThrow("its first part is not a supply");
    expect(() => plantOf(circuit())).toThrow(RangeError);
  });
});
