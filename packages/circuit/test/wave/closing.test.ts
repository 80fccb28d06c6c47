import { run } from "@startgap/ode";
import { describe, expect, it } from "vitest";
import { type Circuit, wavePlantOf } from "../../src/index.ts";
import { shunt, supply } from "../build.ts";

const omega = 120 * Math.PI;

/** Highest current in the first cycle after the supply, of X/R as given, is switched on at an angle. */
function firstPeak(xOverR: number, angle_rad: number): number {
  const r = 1;
  const circuit: Circuit = {
    title: "closing",
    parts: [supply(100, r / 2, (r * xOverR) / 2), { ...shunt("load", "supply", 1), nominal_V: 1 }],
  };
  const [source, load] = circuit.parts;
  if (load.is !== "load") throw new Error("not a load");
  // The load's own series R and X are the other half: P/(P^2 + Q^2) and Q/(P^2 + Q^2) for 1 V.
  const half = { r: r / 2, x: (r * xOverR) / 2 };
  const square = half.r ** 2 + half.x ** 2;
  const parts = [source, { ...load, power_W: half.r / square, reactive_var: half.x / square }];
  const plant = wavePlantOf({ ...circuit, parts });
  const start = plant.start({ angle_rad, fromRest: true });
  let peak = 0;
  run(plant, start, 1 / 60, {
    tolerance: 1e-9,
    maxStep: 1 / 240,
    snapshots: Array.from({ length: 2000 }, (_, k) => (k + 1) / 120_000),
    onSnapshot: (_, y) => {
      peak = Math.max(peak, Math.abs(y[0]));
    },
  });
  return peak;
}

/**
 * Asymmetrical closing of an R-L circuit at voltage zero: peak over rms (closed form, exact time solution).
 * IEC 60909-0 gives kappa = 1.02 + 0.98 e^(-3R/X), within 0.6 % of these (from memory).
 */
describe("closing onto an R-L at voltage zero", () => {
  it.each([
    [1, 1.512],
    [2, 1.756],
    [5, 2.192],
    [10, 2.456],
  ])("X/R %d: peak over rms %d (closed form, 0.1 %%)", (xOverR, expected) => {
    const rms = 100 / Math.hypot(1, xOverR);
    expect(Math.abs(firstPeak(xOverR, Math.PI / 2) / rms / expected - 1)).toBeLessThan(1e-3);
    const kappa = 1.02 + 0.98 * Math.exp(-3 / xOverR);
    expect(Math.abs(firstPeak(xOverR, Math.PI / 2) / rms / (kappa * Math.SQRT2) - 1)).toBeLessThan(7e-3);
  });

  it("closed at the angle of its impedance it has no offset (closed form)", () => {
    const xOverR = 5;
    const angle = Math.atan(xOverR) - Math.PI / 2;
    const rms = 100 / Math.hypot(1, xOverR);
    expect(Math.abs(firstPeak(xOverR, angle) / rms / Math.SQRT2 - 1)).toBeLessThan(1e-5);
  });
});

describe("stiffness", () => {
  /** A metre of cable in front of a lamp would be a mode of microseconds if the cable owned a state. */
  it("a short cable in front of a resistive load costs no more steps than none", () => {
    const work = (r_ohm: number, x_ohm: number): number => {
      const parts = [supply(120, r_ohm, x_ohm), { ...shunt("lamp", "supply", 0.02), nominal_V: 1 }];
      const plant = wavePlantOf({ title: "lamp", parts });
      return run(plant, plant.start(), 0.2, { tolerance: 1e-6, maxStep: 1 / 240 }).count.evaluations;
    };
    const bare = work(0, 0);
    for (const x of [omega * 1e-9, omega * 1e-7, omega * 1e-5, omega * 1e-3]) {
      expect(work(1e-3, x)).toBeLessThan(1.3 * bare);
    }
  });
});
