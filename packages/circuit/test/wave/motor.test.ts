import { run } from "@startgap/ode";
import { describe, expect, it } from "vitest";
import { type Circuit, type Machine, steadyState, waveBalance, wavePlantOf } from "../../src/index.ts";
import { quarterHorse, supply } from "../build.ts";

const SPEED = 5;
const CAPACITOR = 4;

function bench(machine: Machine, inertia_kgm2: number, atRest_Nm = 0, atFullSpeed_Nm = 0): Circuit {
  return {
    title: "bench",
    parts: [
      supply(110),
      {
        is: "motor",
        name: "motor",
        fedBy: "supply",
        leg: "first",
        machine,
        inertia_kgm2,
        drives: { atRest_Nm, atFullSpeed_Nm, shape: "square" },
        fullLoad_A: null,
      },
    ],
  };
}

/** Rms line current and mean torque over the last of `cycles` at a held speed. */
function heldAt(
  machine: Machine,
  slip: number,
  closed: boolean,
  cycles = 40,
): { rms: number; torque: number } {
  const plant = wavePlantOf(bench(machine, 1e9));
  const start = plant.start();
  const mode = start.mode.slice();
  mode[1] = { ...(mode[1] as object), turning: true, startSwitch: closed, carries: closed };
  const y = start.y.slice();
  y[SPEED] = 60 * Math.PI * (1 - slip);
  const rows = 128;
  let sum = 0;
  let torque = 0;
  const rate = new Array<number>(y.length).fill(0);
  run({ ...plant, guards: () => [], guardValues: () => {} }, { t: 0, y, mode }, cycles / 60, {
    tolerance: 1e-9,
    maxStep: 1 / 240,
    snapshots: Array.from({ length: rows }, (_, k) => (cycles - 1 + k / rows) / 60),
    onSnapshot: (t, at, now) => {
      sum += plant.solve(t, at, now).into[1] ** 2 / rows;
      plant.derivative(t, at, now, rate);
      torque += (rate[SPEED] * 1e9) / rows;
    },
  });
  return { rms: Math.sqrt(sum), torque };
}

describe("flux linkages in the steady state", () => {
  it.each([
    [1, true],
    [0.6, true],
    [0.3, true],
    [0.3, false],
    [0.05, false],
  ])(
    "at slip %d, switch closed %s: rms current and mean torque are the revolving fields' (1e-4)",
    (slip, closed) => {
      const expected = steadyState(quarterHorse, 110, slip, closed);
      const found = heldAt(quarterHorse, slip, closed);
      expect(Math.abs(found.rms / Math.hypot(expected.line_A.re, expected.line_A.im) - 1)).toBeLessThan(1e-4);
      expect(Math.abs(found.torque / expected.torque_Nm - 1)).toBeLessThan(2e-4);
    },
  );

  it("follows rotor values that change with slip as the envelope does (1e-4)", () => {
    const machine = { ...quarterHorse, rotorAtStandstill: { r_ohm: 6, x_ohm: 1.5 } };
    const expected = steadyState(machine, 110, 0.4, false);
    const found = heldAt(machine, 0.4, false);
    expect(Math.abs(found.rms / Math.hypot(expected.line_A.re, expected.line_A.im) - 1)).toBeLessThan(1e-4);
    expect(Math.abs(found.torque / expected.torque_Nm - 1)).toBeLessThan(3e-4);
  });
});

/**
 * Free acceleration of the quarter-horsepower machine, supply sqrt(2) 110 cos(omega t), J 0.0146 kg m2, start
 * branch 3 - j14.5 ohm. Data: Krause, Wasynczuk, Sudhoff, 2nd ed., ch. 10 (auxiliary values from memory);
 * the figures are an independent solution of the same data at tolerances 1e-7 and 1e-9, which agree.
 */
describe("free acceleration (independent solution: 0.2 % on times, 0.5 % on peaks)", () => {
  const seen = { line: 0, capacitor: 0, up1700: 0, balance: 0 };
  const plant = wavePlantOf(bench(quarterHorse, 0.0146));
  const result = run(plant, plant.start(), 1.5, {
    tolerance: 1e-8,
    maxStep: 1 / 240,
    snapshots: Array.from({ length: 30_000 }, (_, k) => (k + 1) / 20_000),
    onSnapshot: (t, y, mode) => {
      const walk = plant.solve(t, y, mode);
      seen.line = Math.max(seen.line, Math.abs(walk.into[1]));
      seen.capacitor = Math.max(seen.capacitor, Math.abs(y[CAPACITOR]));
      seen.balance = Math.max(seen.balance, waveBalance(plant, t, y, mode));
      if (seen.up1700 === 0 && y[SPEED] >= (1700 * Math.PI) / 30) seen.up1700 = t;
    },
  });
  const at = (what: string): number =>
    result.events.find(({ name }) => name === `motor: ${what}`)?.t ?? Number.NaN;
  const off = (found: number, expected: number): number => Math.abs(found / expected - 1);

  it("reaches 75 % speed at 0.46015 s and opens the switch at 0.46327 s", () => {
    expect(off(at("start switch opens"), 0.46015)).toBeLessThan(2e-3);
    expect(off(at("auxiliary current passes zero"), 0.46327)).toBeLessThan(2e-3);
  });
  it("reaches 1700 rpm at 0.72625 s", () => {
    expect(off(seen.up1700, 0.72625)).toBeLessThan(2e-3);
  });
  it("peaks at 24.776 A in the line and 128.26 V across the capacitor", () => {
    expect(off(seen.line, 24.776)).toBeLessThan(5e-3);
    expect(off(seen.capacitor, 128.26)).toBeLessThan(5e-3);
  });
  it("balances its power at every sample (invariant, 1e-6)", () => {
    expect(seen.balance).toBeLessThan(1e-6);
  });
});

/** The same with a capacitor without resistance. Same sources. */
it("without resistance in the start branch it opens at 0.40481 s after 75 % at 0.39808 s (independent, 0.2 %)", () => {
  const machine = { ...quarterHorse, startCapacitor: { r_ohm: 0, x_ohm: 14.5 } };
  const plant = wavePlantOf(bench(machine, 0.0146));
  const { events } = run(plant, plant.start(), 0.6, { tolerance: 1e-8, maxStep: 1 / 240 });
  const at = (what: string): number => events.find(({ name }) => name === `motor: ${what}`)?.t ?? Number.NaN;
  expect(Math.abs(at("start switch opens") / 0.39808 - 1)).toBeLessThan(2e-3);
  expect(Math.abs(at("auxiliary current passes zero") / 0.40481 - 1)).toBeLessThan(2e-3);
});
