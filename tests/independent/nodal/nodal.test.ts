import {
  type CircuitPlant,
  kirchhoffResidual,
  type Mode,
  type MotorParameters,
  type PartParameters,
  plantOf,
  powerBalance,
} from "@startgap/circuit";
import { describe, expect, it } from "vitest";
import { type Complex, of, size } from "./complex.ts";
import { nodal, type Setting } from "./nodal.ts";
import { type Tree, tree } from "./trees.ts";

const TREES = 300;

/** The mode that a test's settings stand for. */
function modeOf(plant: CircuitPlant, settings: readonly Setting[]): Mode {
  return plant.start().mode.map((mode, i) => {
    const { open = false, switchClosed = true } = settings[i];
    switch (plant.layout.circuit.parts[i].is) {
      case "contactor":
        return { ...(mode as object), state: open ? "open" : "closed" };
      case "delay relay":
        return { ...(mode as object), state: open ? "off" : "closed" };
      case "fuse":
        return { melted: open };
      case "motor":
        return { ...(mode as object), connected: !open, startSwitch: switchClosed, turning: true };
      default:
        return mode;
    }
  });
}

const sync_radps = (p: MotorParameters, frequency_Hz: number): number =>
  (4 * Math.PI * frequency_Hz) / p.machine.poles;

/** Speeds for the settings' slips. */
function statesOf(plant: CircuitPlant, settings: readonly Setting[]): number[] {
  const y = plant.start().y.slice();
  plant.layout.circuit.parts.forEach((p, i) => {
    const { state, frequency_Hz } = plant.layout.places[i];
    if (p.is === "motor") y[state] = (1 - (settings[i].slip ?? 1)) * sync_radps(p, frequency_Hz);
  });
  return y;
}

/** Largest difference over the size of what is compared, or over a hundredth of a volt or ampere if less. */
const worst = (got: readonly Complex[], want: readonly Complex[]): number =>
  Math.max(
    0,
    ...got.map((g, k) => size(of(g.re - want[k].re, g.im - want[k].im)) / Math.max(size(want[k]), 0.01)),
  );

/** A load's admittance over that at nominal voltage, for the voltage it has; held down to 0.7 of nominal. */
function scaleOf(p: PartParameters, volts: number): number {
  if (p.is !== "load") return 1;
  return Math.max(0.7, volts / p.nominal_V) ** { impedance: 0, current: -1, power: -2 }[p.holds];
}

function error({ circuit, settings }: Tree): number {
  const plant = plantOf(circuit);
  const { vr, vi, ir, ii } = plant.solve(statesOf(plant, settings), modeOf(plant, settings));
  const { told, places } = plant.layout;
  const scaled = circuit.parts.map((p, i) => ({
    ...settings[i],
    scale: scaleOf(p, Math.hypot(vr[told[i]], vi[told[i]])),
  }));
  const want = nodal(circuit, scaled);
  const volts = places.flatMap(({ out }) => out.map((k) => of(vr[k], vi[k])));
  const amperes = circuit.parts.map((_, i) => of(ir[i], ii[i]));
  return Math.max(worst(volts, want.outputs.flat()), worst(amperes, want.currents));
}

describe("fold and unfold (independent code: modified nodal analysis)", () => {
  it("draws every kind of part often", () => {
    const kinds = Array.from({ length: TREES }, (_, k) =>
      tree(k + 1).circuit.parts.map(({ is }) => is),
    ).flat();
    for (const is of ["cable", "fuse", "transformer", "contactor", "delay relay", "load", "motor"])
      expect(kinds.filter((kind) => kind === is).length).toBeGreaterThan(200);
    expect(kinds.filter((kind) => kind === "autotransformer").length).toBeGreaterThan(600);
  });

  it.each(Array.from({ length: TREES / 20 }, (_, k) => 20 * k + 1))(
    "gives every voltage and current of random cabinets %d and nineteen more within 1e-10",
    (first) => {
      for (let seed = first; seed < first + 20; seed++) expect(error(tree(seed))).toBeLessThan(1e-10);
    },
  );

  it("gives them with loads that hold their current or power, each at its own voltage", () => {
    for (let seed = 1; seed <= TREES; seed++) {
      const { circuit, settings } = tree(seed);
      const parts = circuit.parts.map((p, i) =>
        p.is === "load" ? { ...p, holds: (["current", "power"] as const)[i % 2] } : p,
      );
      expect(error({ circuit: { ...circuit, parts }, settings })).toBeLessThan(1e-10);
    }
  });

  it("gives every motor's torque within 1e-9 of its two air-gap powers", () => {
    for (let seed = 1; seed <= TREES; seed++) {
      const { circuit, settings } = tree(seed);
      const plant = plantOf(circuit);
      const y = statesOf(plant, settings);
      const mode = modeOf(plant, settings);
      const rate = y.map(() => 0);
      plant.derivative(0, y, mode, rate);
      const { gap_W } = nodal(circuit, settings);
      circuit.parts.forEach((p, i) => {
        if (p.is !== "motor") return;
        const { state, frequency_Hz } = plant.layout.places[i];
        const torque = gap_W[i] / sync_radps(p, frequency_Hz);
        expect(Math.abs(rate[state] * p.inertia_kgm2 - torque)).toBeLessThan(
          1e-9 * (Math.abs(torque) + 1e-3),
        );
      });
    }
  });

  it("balances power and current in every one of them (invariant)", () => {
    for (let seed = 1; seed <= TREES; seed++) {
      const { circuit, settings } = tree(seed);
      const plant = plantOf(circuit);
      const y = statesOf(plant, settings);
      const mode = modeOf(plant, settings);
      expect(powerBalance(plant, y, mode).residual).toBeLessThan(1e-9);
      expect(kirchhoffResidual(plant, y, mode)).toBeLessThan(1e-12);
    }
  });
});
