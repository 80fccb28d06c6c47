import { describe, expect, it } from "vitest";
import type { LoadParameters } from "../src/index.ts";
import { plantOf, powerBalance } from "../src/index.ts";
import { cable, circuit, supply } from "./build.ts";
import { amperes, volts } from "./phasor.ts";

const load = (holds: LoadParameters["holds"], power_W: number, reactive_var = 0): LoadParameters => ({
  is: "load",
  name: "load",
  fedBy: "supply",
  leg: "first",
  nominal_V: 120,
  power_W,
  reactive_var,
  holds,
});
const magnitude = ({ re, im }: { re: number; im: number }): number => Math.hypot(re, im);
const fed = (e: number, r: number, x: number, l: LoadParameters) => plantOf(circuit(supply(e, r, x), l));

const P = 900;
const Q = 400;
const sources = [
  [120, 0.8, 0],
  [120, 0, 0.8],
  [126, 0.9, 0.6],
  [114, 0.2, 0.5],
] as const;

describe("load behind an impedance (closed form)", () => {
  it.each(sources)(
    "constant power at %d V, %d + j%d ohm: the upper root of the quadratic in V^2",
    (e, r, x) => {
      const plant = fed(e, r, x, load("power", P, Q));
      const half = (e * e - 2 * (P * r + Q * x)) / 2;
      const square = half + Math.sqrt(half * half - (P * P + Q * Q) * (r * r + x * x));
      expect(magnitude(volts(plant, "load"))).toBeCloseTo(Math.sqrt(square), 9);
      const { re, im } = volts(plant, "load");
      const i = amperes(plant, "load");
      expect(re * i.re + im * i.im).toBeCloseTo(P, 8);
      expect(im * i.re - re * i.im).toBeCloseTo(Q, 8);
    },
  );

  it.each(sources)("constant current at %d V, %d + j%d ohm: the quadratic in V", (e, r, x) => {
    const plant = fed(e, r, x, load("current", P, Q));
    const ampere = Math.hypot(P, Q) / 120;
    const [cos, sin] = [P / Math.hypot(P, Q), Q / Math.hypot(P, Q)];
    const along = ampere * (r * cos + x * sin);
    const across = ampere * (x * cos - r * sin);
    expect(magnitude(volts(plant, "load"))).toBeCloseTo(Math.sqrt(e * e - across * across) - along, 9);
    expect(magnitude(amperes(plant, "load"))).toBeCloseTo(ampere, 10);
  });

  it.each(sources)("constant impedance at %d V, %d + j%d ohm: E/(1 + ZY)", (e, r, x) => {
    const [g, b] = [P / 120 ** 2, -Q / 120 ** 2];
    const expected = e / Math.hypot(1 + r * g - x * b, r * b + x * g);
    expect(magnitude(volts(fed(e, r, x, load("impedance", P, Q)), "load"))).toBeCloseTo(expected, 12);
  });

  it.each([
    ["current", 1],
    ["power", 2],
  ] as const)(
    "constant %s is an impedance below 0.7 of nominal, joined on without a jump",
    (holds, power) => {
      const g = (P / 120 ** 2) * 0.7 ** -power;
      for (const e of [0, 30, 70, 84]) {
        const volt = magnitude(volts(fed(e, 0.9, 0, load(holds, P)), "load"));
        expect(volt).toBeCloseTo(e / (1 + 0.9 * g), 10);
      }
      const edge = 84 * (1 + 0.9 * g);
      const [below, above] = [edge - 1e-6, edge + 1e-6].map((e) =>
        magnitude(volts(fed(e, 0.9, 0, load(holds, P)), "load")),
      );
      expect(above - below).toBeGreaterThan(0);
      expect(above - below).toBeLessThan(2e-5);
    },
  );

  it("two kinds at once on a weak feeder balance to the last digits (invariant)", () => {
    const parts = [load("power", 700, 200), { ...load("current", 500), name: "other", fedBy: "c" }];
    const plant = plantOf(circuit(supply(120, 0.7, 0.3), cable("c", "supply", 0.4), ...parts));
    const { residual, lost_W } = powerBalance(plant, [], plant.start().mode);
    expect(residual).toBeLessThan(1e-12);
    expect(lost_W).toBeGreaterThan(1200);
  });

  it("settles on what it asks for its own voltage, strong feeder or weak, leading or lagging (invariant)", () => {
    const off: string[] = [];
    for (const holds of ["current", "power"] as const)
      for (const [r, x] of [
        [0.2, 0],
        [0, 0.5],
        [1, 0.5],
        [0.5, 2],
        [1.5, 1],
      ])
        for (const e of [84, 100, 120, 135, 180])
          for (const watts of [200, 800, 1500, 4000])
            for (const share of [-1, -0.4, 0, 0.6, 1]) {
              const plant = fed(e, r, x, load(holds, watts, share * watts));
              const level = magnitude(volts(plant, "load")) / 120;
              const asked = ((watts * Math.hypot(1, share)) / 120) * level;
              const want = asked * Math.max(0.7, level) ** (holds === "power" ? -2 : -1);
              if (Math.abs(magnitude(amperes(plant, "load")) / want - 1) > 1e-9)
                off.push([holds, r, x, e, watts, share].join(" "));
            }
    expect(off).toEqual([]);
  });
});
