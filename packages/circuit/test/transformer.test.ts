import { describe, expect, it } from "vitest";
import { plantOf, powerBalance } from "../src/index.ts";
import { circuit, none, shunt, supply, transformer } from "./build.ts";
import { amperes, apart, phasor, plus, product, quotient, scaled, volts } from "./phasor.ts";

const one = phasor(1);
const z = phasor(1.2, 0.9);
const y = phasor(0.05, -0.02);

describe("transformer (closed form)", () => {
  it("is an ideal ratio behind its leakage, referred to the first winding", () => {
    const plant = plantOf(
      circuit(
        supply(240),
        transformer("t", "supply", [240, 24], z.re, z.im),
        shunt("lamp", "t", y.re, -y.im),
      ),
    );
    const seen = scaled(0.01, y);
    const expected = quotient(phasor(24), plus(one, product(z, seen)));
    expect(apart(volts(plant, "lamp"), expected)).toBeLessThan(1e-13);
    expect(apart(amperes(plant, "t"), scaled(0.1, product(y, expected)))).toBeLessThan(1e-15);
  });

  it("idles on its exciting branch", () => {
    const excitation = { conductance_S: 1e-4, susceptance_S: 8e-4 };
    const plant = plantOf(
      circuit(supply(240), transformer("t", "supply", [240, 24], z.re, z.im, excitation)),
    );
    expect(apart(amperes(plant, "t"), phasor(0.024, -0.192))).toBeLessThan(1e-15);
    expect(volts(plant, "t").re).toBeCloseTo(24, 13);
    expect(powerBalance(plant, [], plant.start().mode).lost_W).toBeCloseTo(5.76, 12);
  });

  it("one behind another: ratios multiply, leakages add as seen through the first", () => {
    const plant = plantOf(
      circuit(
        supply(480),
        transformer("big", "supply", [480, 120], 2, 1, none),
        transformer("small", "big", [120, 240], 0.5, 0.25, none),
        shunt("lamp", "small", y.re, -y.im),
      ),
    );
    // Seen from the last winding (240 V): 480/240 = 2, so 2 + j1 is a quarter; 120/240, so 0.5 + j0.25 is fourfold.
    const series = plus(phasor(0.5, 0.25), phasor(2, 1));
    const expected = quotient(phasor(240), plus(one, product(series, y)));
    expect(apart(volts(plant, "lamp"), expected)).toBeLessThan(1e-12);
  });

  it("loses its copper loss and nothing else without an exciting branch", () => {
    const plant = plantOf(
      circuit(supply(240), transformer("t", "supply", [240, 120], z.re, z.im), shunt("lamp", "t", 0.05)),
    );
    const { re, im } = amperes(plant, "t");
    const lamp = volts(plant, "lamp");
    const { lost_W, supply_W } = powerBalance(plant, [], plant.start().mode);
    expect(lost_W).toBeCloseTo(1.2 * (re ** 2 + im ** 2) + 0.05 * (lamp.re ** 2 + lamp.im ** 2), 10);
    expect(supply_W).toBeCloseTo(240 * re, 12);
  });
});
