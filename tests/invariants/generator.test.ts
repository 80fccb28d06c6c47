import {
  asStated,
  type Circuit,
  currentInto,
  type GeneratorSource,
  type InverterSource,
  kirchhoffResidual,
  type MotorParameters,
  plantOf,
  powerBalance,
  type Script,
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

const VOLTS = 240;

/** A motor of so many kilovolt-amperes at standstill, about: the quarter-horsepower circuit at 240 V, scaled. */
function motor(name: string, size: number, random: () => number): MotorParameters {
  const z = (r: number, x: number) => ({ r_ohm: (4.8 * r) / size, x_ohm: (4.8 * x) / size });
  return {
    is: "motor",
    name,
    fedBy: "fuse",
    leg: "first",
    machine: {
      poles: 4,
      frequency_Hz: 60,
      voltage_V: VOLTS,
      main: z(2.02, 2.79),
      rotor: z(4.12, 2.12),
      rotorAtStandstill: z(4.12, 2.12),
      magnetising_ohm: (4.8 * 66.8) / size,
      core_ohm: Number.POSITIVE_INFINITY,
      rotationalLoss_W: 10 * size,
      auxiliary: { ...z(7.14, 3.22), turnsRatio: 1.18 },
      startCapacitor: z(3, 14.5),
      runCapacitor: null,
      startSwitch: { opens: 0.75, closes: 0.45 },
    },
    inertia_kgm2: size * (0.01 + 0.05 * random()),
    drives: { atRest_Nm: size * random(), atFullSpeed_Nm: 1.6 * size * random(), shape: "square" },
    fullLoad_A: null,
  };
}

function generatorOf(random: () => number, base_ohm: number): GeneratorSource {
  return {
    is: "generator",
    rating_VA: VOLTS ** 2 / base_ohm,
    synchronous_ohm: base_ohm * (1 + 2 * random()),
    fieldTime_s: 0.2 + 2 * random(),
    ceiling: 1.5 + 6 * random(),
    recovery_s: random() < 0.1 ? null : 10 * random() ** 2,
  };
}

function inverterOf(random: () => number, base_ohm: number): InverterSource {
  const continuous_A = VOLTS / base_ohm;
  const limit_A = continuous_A * (1 + 2 * random());
  return { is: "inverter", continuous_A, limit_A, surge_s: 6 * random(), stops_s: 2 * random() };
}

/** Two motors, lamps on the lead and a load that holds what it may, on a generator or an inverter. */
function cabinet(random: () => number): Circuit {
  const base_ohm = VOLTS ** 2 / (3000 + 9000 * random());
  const source = random() < 0.5 ? generatorOf(random, base_ohm) : inverterOf(random, base_ohm);
  const set = source.is === "generator";
  const z = { r_ohm: set ? 0.03 * base_ohm : 0, x_ohm: set ? base_ohm * (0.1 + 0.3 * random()) : 0 };
  const place = (name: string, fedBy: string) => ({ name, fedBy, leg: "first" as const });
  const load = { is: "load", nominal_V: VOLTS, reactive_var: 300 * random() } as const;
  const holds = (["impedance", "current", "power"] as const)[Math.floor(3 * random())];
  const melt = { minimumFusing_A: 40 + 60 * random(), share: [0.3, 0.7], tau_s: [0.5, 40] };
  return {
    title: "invented",
    parts: [
      { is: "supply", name: "source", voltage_V: VOLTS, frequency_Hz: 60, ...z, source },
      { is: "cable", ...place("lead", "source"), r_ohm: 0.3 * random(), x_ohm: 0.1 * random() },
      { ...load, ...place("lamps", "lead"), power_W: 600 * random(), holds },
      {
        is: "fuse",
        ...place("fuse", "lead"),
        r_ohm: 0.01,
        x_ohm: 0,
        poles: 2,
        rating_A: 30,
        melt,
        clearing: null,
      },
      { ...load, ...place("heater", "fuse"), power_W: 900 * random(), holds: "impedance" },
      motor("first", 1 + 2 * random(), random),
      motor("second", 1 + 2 * random(), random),
    ],
  };
}

function script(random: () => number): Script {
  const delay_s = random() < 0.3 ? 0 : 5 * random();
  const interrupted = random() < 0.2;
  return {
    ...asStated,
    connects_s: (name) => (name === "second" ? delay_s : 0),
    supply: interrupted
      ? [
          { at_s: 1.5, factor: 0 },
          { at_s: 1.7, factor: 1 },
        ]
      : undefined,
  };
}

function worstOf(seed: number) {
  const random = sequence(seed);
  const circuit = cabinet(random);
  const plant = plantOf(circuit);
  const supply = circuit.parts[0];
  const limit_A =
    supply.is === "supply" && supply.source?.is === "inverter" ? supply.source.limit_A : Infinity;
  const worst = { power: 0, current: 0, over: 0, samples: 0 };
  const result = run(plant, plant.start(script(random)), 10, {
    recorder: {
      interior: true,
      sample(_, y, mode) {
        worst.samples++;
        worst.power = Math.max(worst.power, powerBalance(plant, y, mode).residual);
        worst.current = Math.max(worst.current, kirchhoffResidual(plant, y, mode));
        worst.over = Math.max(worst.over, currentInto(plant.solve(y, mode), 0) / limit_A);
      },
    },
  });
  return { ...worst, ...result };
}

describe("two hundred invented cabinets on a generator or an inverter (invariant, fixed seeds)", () => {
  const all = Array.from({ length: 200 }, (_, seed) => worstOf(seed + 1));

  it("are told to their end", () => {
    expect(all.map(({ outcome }) => outcome.says).filter((says) => says !== "Reached 10 s.")).toEqual([]);
    expect(Math.min(...all.map(({ samples }) => samples))).toBeGreaterThan(20);
  });

  it("keep power, current and the inverter's limit at every sample", () => {
    expect(Math.max(...all.map(({ power }) => power))).toBeLessThan(1e-6);
    expect(Math.max(...all.map(({ current }) => current))).toBeLessThan(1e-9);
    expect(Math.max(...all.map(({ over }) => over))).toBeLessThanOrEqual(1 + 1e-11);
  });

  it("meet every end of field, limit and surge at least somewhere", () => {
    const met = new Set(all.flatMap(({ events }) => events.map(({ name }) => name)));
    for (const what of [
      "field reaches its ceiling",
      "field leaves its ceiling",
      "gives more than its rating",
      "reaches its current limit",
      "leaves its current limit",
      "is back within its rating",
      "surge time is up",
      "shuts down",
    ])
      expect(met).toContain(`source: ${what}`);
  });

  it("take no more work than so much", () => {
    const evaluations = all.map(({ count }) => count.evaluations).sort((a, b) => a - b);
    expect(evaluations[100]).toBeLessThan(1500);
    expect(evaluations[199]).toBeLessThan(15_000);
  });
});
