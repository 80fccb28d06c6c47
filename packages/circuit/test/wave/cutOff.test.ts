import { run } from "@startgap/ode";
import { describe, expect, it } from "vitest";
import { asStated, type Circuit, waveBalance, wavePlantOf } from "../../src/index.ts";
import { fuse, quarterHorse, shunt, supply } from "../build.ts";

const OMEGA = 120 * Math.PI;
const [MAIN, ROTOR_Q, SPEED] = [0, 2, 5];
const LM = quarterHorse.magnetising_ohm / OMEGA;
const L2 = LM + quarterHorse.rotor.x_ohm / OMEGA;

const bench: Circuit = {
  title: "bench",
  parts: [
    supply(110),
    {
      is: "motor",
      name: "motor",
      fedBy: "supply",
      leg: "first",
      machine: quarterHorse,
      inertia_kgm2: 0.0146,
      drives: { atRest_Nm: 0, atFullSpeed_Nm: 0, shape: "square" },
      fullLoad_A: null,
    },
  ],
};

describe("a machine cut off from the line", () => {
  const plant = wavePlantOf(bench);
  const never = plant.start({ script: { ...asStated, connects_s: () => Number.POSITIVE_INFINITY } });
  const mode = never.mode.slice();
  mode[1] = { ...(mode[1] as object), startSwitch: false, carries: false };
  const psi = 0.3;
  const y = never.y.slice();
  y[ROTOR_Q] = psi;
  y[MAIN] = (LM * psi) / L2;

  it("at rest its rotor flux decays with L2/r2 and links the open main winding (closed form, 1e-6)", () => {
    const { end } = run({ ...plant, guards: () => [], guardValues: () => {} }, { t: 0, y, mode }, 0.05, {
      tolerance: 1e-9,
    });
    const expected = psi * Math.exp((-0.05 * quarterHorse.rotor.r_ohm) / L2);
    expect(Math.abs(end.y[ROTOR_Q] / expected - 1)).toBeLessThan(1e-6);
    expect(Math.abs(end.y[MAIN] / ((LM * expected) / L2) - 1)).toBeLessThan(1e-6);
  });

  it("carries no current into the line and keeps its balance while it turns (invariant, 1e-9)", () => {
    const turning = y.slice();
    turning[SPEED] = 180;
    mode[1] = { ...(mode[1] as object), turning: true };
    let worst = 0;
    run(plant, { t: 0, y: turning, mode }, 0.2, {
      tolerance: 1e-8,
      maxStep: 1 / 240,
      snapshots: [0.001, 0.01, 0.05, 0.1, 0.15],
      onSnapshot: (t, at, of) => {
        worst = Math.max(worst, waveBalance(plant, t, at, of));
        expect(plant.solve(t, at, of).into[1]).toBe(0);
        const linked = (at[MAIN] * L2) / (LM * at[ROTOR_Q]);
        expect(Math.abs(linked - 1)).toBeLessThan(1e-4);
      },
    });
    expect(worst).toBeLessThan(1e-9);
  });

  it("opens its own contact at a zero of the line current", () => {
    const script = { ...asStated, opens_s: () => 0.1 };
    const { events } = run(plant, plant.start({ script }), 0.2, { tolerance: 1e-8, maxStep: 1 / 240 });
    const at = (what: string): number =>
      events.find(({ name }) => name === `motor: ${what}`)?.t ?? Number.NaN;
    expect(at("is disconnected")).toBe(0.1);
    expect(at("line current passes zero")).toBeGreaterThan(0.1);
    expect(at("line current passes zero")).toBeLessThan(0.1 + 1 / 120 + 1e-9);
  });
});

describe("a fuse", () => {
  it("that has melted carries on to the next zero of its current, and nothing after it", () => {
    const melt = { minimumFusing_A: 10, share: [1], tau_s: [0.02] };
    const parts = [supply(120, 0.1, 0.1), fuse("link", "supply", melt), shunt("load", "link", 0.2, 0.2)];
    const plant = wavePlantOf({ title: "melting", parts });
    let after = 0;
    const { events } = run(plant, plant.start(), 0.1, {
      tolerance: 1e-8,
      maxStep: 1 / 240,
      snapshots: Array.from({ length: 100 }, (_, k) => (k + 1) / 1000),
      onSnapshot: (t, y, mode) => {
        if (t > 0.08) after = Math.max(after, Math.abs(plant.solve(t, y, mode).into[1]));
      },
    });
    const [melts, zero] = events;
    expect([melts.name, zero.name]).toEqual(["link: melts", "link: current passes zero"]);
    expect(zero.t - melts.t).toBeLessThan(1 / 120);
    expect(after).toBe(0);
  });
});

describe("a load without reactance", () => {
  it("takes just its power, and 0.3 % more current than it should (closed form, 1e-5)", () => {
    const parts = [supply(120), { ...shunt("lamp", "supply", 400), nominal_V: 120 }];
    const plant = wavePlantOf({ title: "lamp", parts });
    const rows = 256;
    let power = 0;
    let square = 0;
    run(plant, plant.start(), 0.1, {
      tolerance: 1e-9,
      maxStep: 1 / 240,
      snapshots: Array.from({ length: rows }, (_, k) => 0.05 + k / (60 * rows)),
      onSnapshot: (t, y, mode) => {
        const walk = plant.solve(t, y, mode);
        power += (walk.v[0] * walk.into[1]) / rows;
        square += walk.into[1] ** 2 / rows;
      },
    });
    expect(Math.abs(power / 400 - 1)).toBeLessThan(1e-5);
    const expected = (400 / 120) * Math.hypot(1, OMEGA * 2e-4);
    expect(Math.abs(Math.sqrt(square) / expected - 1)).toBeLessThan(1e-5);
  });
});
