import {
  asStated,
  type Circuit,
  type LoadParameters,
  type PartParameters,
  plantOf,
  type SupplyParameters,
  waveBalance,
  wavePlantOf,
} from "@startgap/circuit";
import { run } from "@startgap/ode";
import { describe, expect, it } from "vitest";

/** A small linear congruential sequence: the same cabinets on every machine. */
function sequence(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

const SAMPLES = 128;
const END_s = 0.4;

type Source = SupplyParameters["source"];
const sources: Readonly<Record<string, Source>> = {
  "a stiff supply": undefined,
  "a generator": {
    ...{ is: "generator", rating_VA: 9000, synchronous_ohm: 11, fieldTime_s: 0.6 },
    ...{ ceiling: 4, recovery_s: 2 },
  },
  "an inverter at its limit": { is: "inverter", continuous_A: 9, limit_A: 10, surge_s: 60, stops_s: 60 },
};

/** A tree of cables and transformers with loads of every kind at its ends; no motors, no cores, no resistances alone. */
function cabinet(source: Source, random: () => number): Circuit {
  const between = (low: number, high: number): number => low + (high - low) * random();
  const supply = {
    is: "supply",
    name: "supply",
    voltage_V: 240,
    frequency_Hz: random() < 0.5 ? 50 : 60,
  } as const;
  const weak = source === undefined ? 0.3 : 1.5;
  const parts: PartParameters[] = [
    { ...supply, r_ohm: between(0.05, weak), x_ohm: between(0.05, weak), source },
  ];
  const ends: { fedBy: string; leg: "first" | "second" | "both"; nominal_V: number }[] = [
    { fedBy: "supply", leg: "first", nominal_V: 240 },
  ];
  for (let k = 0; k < 5; k++) {
    const end = ends[Math.floor(random() * ends.length)];
    const { fedBy, leg, nominal_V } = end;
    const name = `part ${k}`;
    const ohms = { r_ohm: between(0.01, 0.2), x_ohm: between(0, 0.2) };
    const kind = random();
    if (kind < 0.5) {
      parts.push({ is: "cable", name, fedBy, leg, ...ohms });
      ends.push({ fedBy: name, leg: "first", nominal_V });
      continue;
    }
    const both = { name, fedBy, leg, ...ohms, rating_VA: Number.POSITIVE_INFINITY };
    const excitation = { conductance_S: 0, susceptance_S: 0 };
    if (kind < 0.75 || nominal_V < 200) {
      parts.push({ is: "transformer", ...both, windings_V: [nominal_V, 120], excitation });
      ends.push({ fedBy: name, leg: "first", nominal_V: 120 });
    } else {
      parts.push({ is: "autotransformer", ...both, windings_V: [120, 120], excitation });
      for (const half of ["first", "second"] as const) ends.push({ fedBy: name, leg: half, nominal_V: 120 });
      ends.push({ fedBy: name, leg: "both", nominal_V: 240 });
    }
  }
  ends.forEach((end, k) => {
    parts.push(load(`load ${k}`, end, between(150, 600), random));
  });
  return { title: "random", parts };
}

function load(
  name: string,
  end: Pick<LoadParameters, "fedBy" | "leg" | "nominal_V">,
  power_W: number,
  random: () => number,
): LoadParameters {
  const holds = (["impedance", "current", "power"] as const)[Math.floor(random() * 3)];
  const lags = holds !== "impedance" || random() < 0.6;
  const reactive_var = power_W * (lags ? 0.3 + random() : -random());
  return { is: "load", name, ...end, power_W, reactive_var, holds };
}

/** Rms voltage of every load over the last cycle, and the worst imbalance of power in it. */
function waved(circuit: Circuit) {
  const plant = wavePlantOf(circuit);
  const { places, told } = plant.layout;
  const cycle_s = 1 / places[0].frequency_Hz;
  const squares = new Float64Array(circuit.parts.length);
  let balance = 0;
  const { outcome } = run(plant, plant.start(), END_s, {
    method: "runge-kutta",
    tolerance: 1e-7,
    maxStep: cycle_s / 4,
    maxSteps: 1e5,
    snapshots: Array.from({ length: SAMPLES }, (_, k) => END_s - (cycle_s * (SAMPLES - 1 - k)) / SAMPLES),
    onSnapshot: (t, y, mode) => {
      const { v } = plant.solve(t, y, mode);
      for (let i = 0; i < squares.length; i++) squares[i] += v[told[i]] ** 2 / SAMPLES;
      balance = Math.max(balance, waveBalance(plant, t, y, mode));
    },
  });
  expect(outcome.ending).toBe("finished");
  return { rms: squares.map(Math.sqrt), balance };
}

function enveloped(circuit: Circuit): Float64Array {
  const plant = plantOf(circuit);
  const { end } = run(plant, plant.start(asStated), END_s, { tolerance: 1e-7 });
  const { vr, vi } = plant.solve(end.y, end.mode);
  return Float64Array.from(plant.layout.told, (node) => Math.hypot(vr[node], vi[node]));
}

/** A generator's slow field feels the swing of the wave, which its phasors do not have. */
const asked = (source: Source): number => (source?.is === "generator" ? 2e-4 : 1e-6);

describe.each(Object.entries(sources))("twelve random cabinets on %s", (name, source) => {
  it("have the same voltages in both resolutions and balance their power, 1e-6 (invariant)", () => {
    const random = sequence(name.length);
    for (let k = 0; k < 12; k++) {
      const circuit = cabinet(source, random);
      const { rms, balance } = waved(circuit);
      const expected = enveloped(circuit);
      expect(balance).toBeLessThan(1e-6);
      circuit.parts.forEach((p, i) => {
        if (p.is === "load")
          expect(Math.abs(rms[i] / expected[i] - 1), `${k}: ${p.name}`).toBeLessThan(asked(source));
      });
    }
  });
});
