import { describe, expect, it } from "vitest";
import { plantOf, powerBalance } from "../src/index.ts";
import { autotransformer, circuit, shunt, supply } from "./build.ts";
import { amperes, apart, type Phasor, phasor, plus, product, quotient, scaled, volts } from "./phasor.ts";

const E = 240;
const source = phasor(0.6, 0.4);
const winding = phasor(0.36, 0.2);
const one = phasor(1);
const on = (name: string, leg: "first" | "second" | "both", g_S: number, b_S: number) => ({
  ...shunt(name, "t", g_S, b_S),
  leg,
});
const fed = (...loads: readonly ReturnType<typeof on>[]) =>
  plantOf(
    circuit(
      supply(E, source.re, source.im),
      autotransformer("t", "supply", [120, 120], winding.re, winding.im),
      ...loads,
    ),
  );

describe("equal windings (closed form)", () => {
  const load = { g: 0.15, b: 0.08 };
  const y = phasor(load.g, -load.b);
  const quarter = scaled(0.25, plus(source, winding));

  it.each(["first", "second"] as const)("the %s leg sees a quarter of the loop and of the winding", (leg) => {
    const plant = fed(on("heater", leg, load.g, load.b));
    const expected = quotient(phasor(120), plus(one, product(quarter, y)));
    expect(apart(volts(plant, "heater"), expected)).toBeLessThan(1e-12);
    const drawn = product(y, expected);
    expect(apart(amperes(plant, "supply"), scaled(0.5, drawn))).toBeLessThan(1e-13);
  });

  it("the idle leg takes the rest of the input", () => {
    const plant = fed(on("heater", "first", load.g, load.b));
    const input = volts(plant, "t", 2);
    expect(apart(plus(volts(plant, "t", 0), volts(plant, "t", 1)), input)).toBeLessThan(1e-13);
    const legs = [0, 1].map((k) => volts(plant, "t", k));
    expect(Math.hypot(legs[1].re, legs[1].im)).toBeGreaterThan(Math.hypot(legs[0].re, legs[0].im));
  });

  it("equal loads on both legs see no winding impedance, and as much as one load across both", () => {
    const two = fed(on("one", "first", load.g, load.b), on("other", "second", load.g, load.b));
    const across = fed(on("one", "both", load.g / 2, load.b / 2));
    expect(apart(volts(two, "one"), scaled(0.5, volts(across, "one")))).toBeLessThan(1e-12);
    expect(apart(volts(two, "one"), volts(two, "other"))).toBeLessThan(1e-12);
    expect(apart(amperes(two, "supply"), amperes(across, "supply"))).toBeLessThan(1e-13);
  });

  it("each line carries half the sum of the leg currents", () => {
    const plant = fed(on("one", "first", 0.12, 0.1), on("other", "second", 0.05, 0));
    const legs = plus(amperes(plant, "one"), amperes(plant, "other"));
    expect(apart(amperes(plant, "supply"), scaled(0.5, legs))).toBeLessThan(1e-13);
  });
});

describe("unequal windings (closed form)", () => {
  const k = [100 / 240, 140 / 240];
  const y = phasor(0.1, -0.06);
  const plantWith = (leg: "first" | "second") =>
    plantOf(
      circuit(
        supply(E, source.re, source.im),
        autotransformer("t", "supply", [100, 140], winding.re, winding.im),
        on("heater", leg, y.re, -y.im),
      ),
    );

  it.each([
    ["first", 0],
    ["second", 1],
  ] as const)("the %s leg: k E behind k^2 Zs + k2^2 Zw", (leg, i) => {
    const z = plus(scaled(k[i] ** 2, source), scaled(k[1] ** 2, winding));
    const expected = quotient(phasor(k[i] * E), plus(one, product(z, y)));
    expect(apart(volts(plantWith(leg), "heater"), expected)).toBeLessThan(1e-12);
  });

  it("draws from the line by turns", () => {
    const plant = plantWith("second");
    expect(apart(amperes(plant, "supply"), scaled(k[1], amperes(plant, "heater")))).toBeLessThan(1e-13);
  });
});

describe("exciting branch (closed form)", () => {
  it("stands across the whole input: idle current and idle loss", () => {
    const excitation = { conductance_S: 4e-4, susceptance_S: 3e-3 };
    const plant = plantOf(
      circuit(supply(E, 1, 0.5), autotransformer("t", "supply", [120, 120], 0.3, 0.2, excitation)),
    );
    const y0: Phasor = phasor(4e-4, -3e-3);
    const input = quotient(phasor(E), plus(one, product(phasor(1, 0.5), y0)));
    expect(apart(amperes(plant, "t"), product(y0, input))).toBeLessThan(1e-14);
    const { lost_W, residual } = powerBalance(plant, [], plant.start().mode);
    const square = input.re ** 2 + input.im ** 2;
    const copper = 1 * (y0.re ** 2 + y0.im ** 2) * square;
    expect(lost_W).toBeCloseTo(4e-4 * square + copper, 10);
    expect(residual).toBeLessThan(1e-12);
  });
});
