import { run } from "@startgap/ode";
import { describe, expect, it } from "vitest";
import {
  asStated,
  type Circuit,
  type LoadParameters,
  plantOf,
  type Script,
  waveBalance,
  wavePlantOf,
} from "../../src/index.ts";
import { cable, circuit, shunt, supply } from "../build.ts";

const CYCLE_s = 1 / 60;
const SAMPLES = 128;

const load = (holds: LoadParameters["holds"], power_W: number, reactive_var: number): LoadParameters => ({
  ...shunt("set", "lead", power_W, reactive_var),
  nominal_V: 240,
  holds,
});
const feeding = (volt: number, set: LoadParameters): Circuit =>
  circuit(supply(volt, 0.4, 0.3), cable("lead", "supply", 0.5, 0.1), set);
const SET = 2;

/** Rms of the set's voltage and current over the cycle that ends at a time, and the worst imbalance of power. */
function told(c: Circuit, end_s: number, script: Script = asStated) {
  const plant = wavePlantOf(c);
  let [v2, i2, balance] = [0, 0, 0];
  run(plant, plant.start({ script }), end_s, {
    method: "runge-kutta",
    tolerance: 1e-9,
    maxStep: CYCLE_s / 4,
    snapshots: Array.from({ length: SAMPLES }, (_, k) => end_s - (CYCLE_s * (SAMPLES - 1 - k)) / SAMPLES),
    onSnapshot: (t, y, mode) => {
      const { v, into } = plant.solve(t, y, mode);
      v2 += v[plant.layout.told[SET]] ** 2 / SAMPLES;
      i2 += into[SET] ** 2 / SAMPLES;
      balance = Math.max(balance, waveBalance(plant, t, y, mode));
    },
  });
  return { volt: Math.sqrt(v2), ampere: Math.sqrt(i2), balance };
}

/** The same of the envelope. */
function steady(c: Circuit) {
  const plant = plantOf(c);
  const { y, mode } = plant.start(asStated);
  const walk = plant.solve(y, mode);
  const at = plant.layout.told[SET];
  return {
    volt: Math.hypot(walk.vr[at], walk.vi[at]),
    ampere: Math.hypot(walk.ir[SET], walk.ii[SET]),
  };
}

const sets = (["current", "power"] as const).flatMap((holds) =>
  [240, 200, 150].map((volt) => ({ holds, volt })),
);

describe.each(sets)("a load that holds its $holds on $volt V", ({ holds, volt }) => {
  const c = feeding(volt, load(holds, 3000, 2000));

  it("begins and stays where the envelope has it (independent code, 1e-6)", () => {
    const expected = steady(c);
    for (const end_s of [CYCLE_s, 0.3]) {
      const { volt: v, ampere, balance } = told(c, end_s);
      expect(Math.abs(v / expected.volt - 1)).toBeLessThan(1e-6);
      expect(Math.abs(ampere / expected.ampere - 1)).toBeLessThan(1e-6);
      expect(balance).toBeLessThan(1e-9);
    }
  });

  it("finds its way there after the supply's voltage falls by a tenth (independent code, 1e-6)", () => {
    const script: Script = { ...asStated, supply: [{ at_s: 0.1, factor: 0.9 }] };
    const expected = steady(feeding(0.9 * volt, load(holds, 3000, 2000)));
    const { volt: v, ampere } = told(c, 0.5, script);
    expect(Math.abs(v / expected.volt - 1)).toBeLessThan(1e-6);
    expect(Math.abs(ampere / expected.ampere - 1)).toBeLessThan(1e-6);
  });
});

describe("what is held", () => {
  it("is the stated current, or the stated power, at a tenth less voltage (closed form, 2e-3)", () => {
    const stated = Math.hypot(3000, 2000);
    const constant = told(feeding(215, load("current", 3000, 2000)), 0.2);
    expect(Math.abs((constant.ampere * 240) / stated - 1)).toBeLessThan(2e-3);
    const power = told(feeding(215, load("power", 3000, 2000)), 0.2);
    expect(Math.abs((power.ampere * power.volt) / stated - 1)).toBeLessThan(2e-3);
  });

  it("is no longer held under 0.7 of nominal: the current goes with the voltage (closed form, 1e-3)", () => {
    const [one, other] = [120, 60].map((volt) => told(feeding(volt, load("power", 3000, 2000)), 0.2));
    expect(Math.abs(one.ampere / one.volt / (other.ampere / other.volt) - 1)).toBeLessThan(1e-3);
  });
});

describe("a load whose current leads", () => {
  it.each([
    [3000, -2000],
    [500, -3000],
    [10, -4000],
  ])("of %d W and %d var is the envelope's in the steady state (independent code, 1e-6)", (power_W, var_) => {
    const c = feeding(240, load("impedance", power_W, var_));
    const expected = steady(c);
    for (const end_s of [CYCLE_s, 0.2]) {
      const { volt, ampere, balance } = told(c, end_s);
      expect(Math.abs(volt / expected.volt - 1)).toBeLessThan(1e-6);
      expect(Math.abs(ampere / expected.ampere - 1)).toBeLessThan(1e-6);
      expect(balance).toBeLessThan(1e-9);
    }
  });
});
