import { type Plant, run } from "@startgap/ode";
import { describe, expect, it } from "vitest";
import { regulatorOf } from "../src/generator.ts";
import type { Circuit, CircuitPlant, Mode, Script } from "../src/index.ts";
import { asStated, kirchhoffResidual, plantOf, powerBalance } from "../src/index.ts";
import { cable, circuit, delayRelay, fuse, motor, shunt } from "./build.ts";
import { amperes, apart, type Phasor, phasor, plus, product, quotient, volts } from "./phasor.ts";
import { admittance, generator, set, unregulated_V } from "./sources.ts";

const STEP_s = 1;

/** A set at no load onto which an admittance is switched after a second. */
const stepped = (p: ReturnType<typeof generator>, y: Phasor): Circuit =>
  circuit(p, delayRelay("switch", "generator", STEP_s, 100), shunt("step", "switch", y.re, -y.im));

/** Terminal voltage over time, at every sample. */
function told(plant: CircuitPlant, tEnd: number, script: Script = asStated, tolerance = 1e-6) {
  const seen: { t: number; v: number }[] = [];
  const worst = { power: 0, current: 0, infinite: 0 };
  const sample = (t: number, y: readonly number[], mode: Mode): void => {
    const v = volts(plant, "generator", 0, { y, mode });
    seen.push({ t, v: Math.hypot(v.re, v.im) });
    worst.power = Math.max(worst.power, powerBalance(plant, y, mode).residual);
    worst.current = Math.max(worst.current, kirchhoffResidual(plant, y, mode));
    worst.infinite += y.filter((value) => !Number.isFinite(value)).length;
  };
  const result = run(plant, plant.start(script), tEnd, { tolerance, recorder: { interior: true, sample } });
  return { seen, worst, result, lowest: Math.min(...seen.map(({ v }) => v)) };
}

const lastOutside = (seen: readonly { t: number; v: number }[], band: number): number =>
  Math.max(0, ...seen.filter(({ v }) => Math.abs(v / 240 - 1) > band).map(({ t }) => t - STEP_s));

describe("a generator without a regulator (closed form)", () => {
  const still = generator({ recovery_s: null });

  it.each([
    [0.5, 1],
    [1, 0.8],
    [2, 0.6],
    [3, 0],
  ])("%f times its rating at power factor %f: the transient divider, then an exponential", (size, factor) => {
    const y = admittance(size, factor);
    const plant = plantOf(stepped(still, y));
    const { seen } = told(plant, 6, asStated, 1e-9);
    const first =
      240 / Math.hypot(1 + still.r_ohm * y.re - still.x_ohm * y.im, still.r_ohm * y.im + still.x_ohm * y.re);
    expect(Math.abs(seen.filter(({ t }) => t === STEP_s).at(-1)!.v - first)).toBeLessThan(1e-9);
    for (const { t, v } of seen.filter(({ t }) => t > STEP_s))
      expect(Math.abs(v - unregulated_V(still, set, y, t - STEP_s))).toBeLessThan(2e-6);
    const steady = quotient(
      phasor(240),
      plus(phasor(1), product(phasor(still.r_ohm, set.synchronous_ohm), y)),
    );
    const end = run(plant, plant.start(), 60, { tolerance: 1e-9 }).end;
    expect(apart(volts(plant, "generator", 0, end), steady)).toBeLessThan(1e-6);
  });

  it("holds a short circuit at its field over the synchronous impedance", () => {
    const plant = plantOf(stepped(still, phasor(1e6)));
    const { end } = run(plant, plant.start(), 60);
    const i = amperes(plant, "generator", end);
    expect(Math.hypot(i.re, i.im)).toBeCloseTo(240 / Math.hypot(still.r_ohm, set.synchronous_ohm), 3);
  });
});

describe("a regulator", () => {
  it.each([0.2, 0.5, 1, 2.5, 6, 20])(
    "of %f s brings every load its ceiling sustains back in time (invariant)",
    (recovery_s) => {
      const p = generator({ recovery_s });
      let sustained = 0;
      for (const size of [0.3, 0.6, 1, 1.5, 2, 2.3])
        for (const factor of [1, 0.8, 0.5, 0]) {
          const y = admittance(size, factor);
          const n = plus(phasor(1), product(phasor(p.r_ohm, set.synchronous_ohm), y));
          if (Math.hypot(n.re, n.im) > 0.9 * set.ceiling) continue;
          sustained++;
          const { seen } = told(plantOf(stepped(p, y)), STEP_s + 2 * recovery_s);
          expect(lastOutside(seen, 0.03)).toBeLessThan(recovery_s);
          expect(Math.max(...seen.map(({ v }) => v))).toBeLessThan(1.03 * 240);
        }
      expect(sustained).toBeGreaterThan(15);
    },
  );

  it("holds the voltage to nothing in the steady state, from no load and from a load", () => {
    const p = circuit(generator(), cable("lead", "generator", 0.2), shunt("heater", "lead", 0.1));
    const plant = plantOf(p);
    const start = plant.start();
    const rate = start.y.map(() => 0);
    plant.derivative(0, start.y, start.mode, rate);
    for (const value of rate) expect(Math.abs(value)).toBeLessThan(1e-9);
    const v = volts(plant, "generator");
    expect(Math.hypot(v.re, v.im)).toBeCloseTo(240, 9);
    const later = run(plant, start, 30).end;
    const after = volts(plant, "generator", 0, later);
    expect(Math.hypot(after.re, after.im)).toBeCloseTo(240, 6);
  });

  it("begins steady on a load that holds its power, too", () => {
    const held = {
      ...shunt("pump control", "lead", 3000),
      nominal_V: 240,
      power_W: 3000,
      holds: "power",
    } as const;
    const plant = plantOf(circuit(generator(), cable("lead", "generator", 0.9), held));
    const start = plant.start();
    const rate = start.y.map(() => 0);
    plant.derivative(0, start.y, start.mode, rate);
    for (const value of rate) expect(Math.abs(value)).toBeLessThan(1e-7);
    const [v, i] = [volts(plant, "pump control"), amperes(plant, "pump control")];
    expect(v.re * i.re + v.im * i.im).toBeCloseTo(3000, 6);
  });

  it("stays at its ceiling when the load is too much: the field's end over the synchronous impedance (closed form)", () => {
    const y = admittance(3, 0.3);
    const p = generator();
    const plant = plantOf(stepped(p, y));
    const { result, seen } = told(plant, 40);
    expect(result.events.map(({ name }) => name)).toContain("generator: field reaches its ceiling");
    const n = plus(phasor(1), product(phasor(p.r_ohm, set.synchronous_ohm), y));
    expect(seen.at(-1)!.v).toBeCloseTo((240 * set.ceiling) / Math.hypot(n.re, n.im), 3);
  });

  it("shuts the field when a great load is thrown off, and lets it return", () => {
    const y = admittance(2, 0.3);
    const melts = plantOf(
      circuit(
        generator({ recovery_s: 0.5 }),
        fuse("fuse", "generator", { minimumFusing_A: 20, share: [1], tau_s: [2] }),
        shunt("step", "fuse", y.re, -y.im),
      ),
    );
    const { result, seen } = told(melts, 12);
    const names = result.events.map(({ name }) => name);
    expect(names).toContain("generator: field is shut");
    expect(names.indexOf("generator: field returns")).toBeGreaterThan(
      names.indexOf("generator: field is shut"),
    );
    expect(Math.max(...seen.map(({ v }) => v))).toBeGreaterThan(1.1 * 240);
    expect(seen.at(-1)!.v).toBeCloseTo(240, 3);
  });

  it("has gains that grow as the recovery time falls, and none without it", () => {
    const times = [0.01, 0.1, 0.3, 1, 3, 10, 60];
    const found = times.map((recovery_s) => regulatorOf({ ...set, recovery_s }));
    for (let i = 1; i < times.length; i++) {
      expect(found[i].gain).toBeLessThanOrEqual(found[i - 1].gain);
      expect(found[i].memory_s).toBeGreaterThanOrEqual(found[i - 1].memory_s);
    }
    expect(found[0]).toEqual(found[1]);
    expect(regulatorOf({ ...set, recovery_s: null }).gain).toBe(0);
  });
});

const rated = (name: string) =>
  motor(name, "fuse", {
    machine: {
      ...motor("m", "x").machine,
      voltage_V: 220,
      main: { r_ohm: 2.02, x_ohm: 2.79 },
    },
    inertia_kgm2: 0.05,
    drives: { atRest_Nm: 1, atFullSpeed_Nm: 6, shape: "square" },
  });
const two = circuit(
  generator(),
  fuse("fuse", "generator", { minimumFusing_A: 90, share: [0.3, 0.7], tau_s: [2, 60] }, 0.01),
  rated("saw"),
  rated("fan"),
  shunt("lamps", "fuse", 0.02),
);
const second = (delay_s: number): Script => ({
  ...asStated,
  connects_s: (name) => (name === "fan" ? delay_s : 0),
});

describe("two motors on a generator", () => {
  it.each([0, 0.3, 2])("the second after %f s: power and current at every sample (invariant)", (delay_s) => {
    const { worst, result, seen } = told(plantOf(two), 20, second(delay_s));
    expect(result.outcome.ending).toBe("finished");
    expect(seen.length).toBeGreaterThan(50);
    expect(worst.power).toBeLessThan(1e-6);
    expect(worst.current).toBeLessThan(1e-9);
    expect(worst.infinite).toBe(0);
  });

  it("dip less when one waits for the other to have come up", () => {
    const plant = plantOf(two);
    const together = told(plant, 20, second(0)).lowest;
    const held = told(plant, 20, second(3)).lowest;
    expect(held).toBeGreaterThan(together + 0.05 * 240);
  });

  it("come to rest only with the flux: as the same story integrated throughout", () => {
    const plant = plantOf(two);
    const whole: Plant<Mode> = { ...plant, rest: undefined };
    const tight = run(whole, plant.start(second(3)), 20, { tolerance: 1e-9 });
    const [rested, driven] = [plant, whole].map((p) => run(p, plant.start(second(3)), 20));
    rested.end.y.forEach((value, i) => {
      expect(Math.abs(value - tight.end.y[i])).toBeLessThan(2e-5 * (1 + Math.abs(tight.end.y[i])));
    });
    expect(rested.count.evaluations).toBeLessThan(0.8 * driven.count.evaluations);
  });

  it("dip as deep in the first moment as behind the transient reactance alone (closed form)", () => {
    const plant = plantOf(two);
    const { seen } = told(plant, 0.5, second(9));
    const bare = plantOf({ ...two, parts: [{ ...generator(), source: undefined }, ...two.parts.slice(1)] });
    const start = plant.start();
    const emf = Math.hypot(start.y[0], start.y[1]);
    const v = volts(bare, "generator", 0, { ...bare.start(second(9)) });
    expect(seen[0].v).toBeCloseTo((Math.hypot(v.re, v.im) * emf) / 240, 9);
  });
});

describe("a breaker opened between generator and cabinet", () => {
  it("leaves its flux as it was, and the cabinet dead until it closes", () => {
    const y = admittance(1, 0.8);
    const plant = plantOf(circuit(generator(), shunt("load", "generator", y.re, -y.im)));
    const gap = [
      { at_s: 1, factor: 0 },
      { at_s: 2, factor: 1 },
    ];
    const { seen, result } = told(plant, 12, { ...asStated, supply: gap });
    const at = (from: number, to: number) => seen.filter(({ t }) => t > from && t < to).map(({ v }) => v);
    expect(Math.max(...at(1, 2))).toBe(0);
    expect(Math.min(...at(0, 1))).toBeCloseTo(240, 6);
    expect(seen.at(-1)!.v).toBeCloseTo(240, 3);
    expect(result.outcome.ending).toBe("finished");
  });
});
