import { run } from "@startgap/ode";
import { describe, expect, it } from "vitest";
import { asStated, meltFraction, plantOf } from "../src/index.ts";
import { cable, circuit, delayRelay, fuse, shunt, supply } from "./build.ts";
import { amperes, partOf, volts } from "./phasor.ts";

const melt = { minimumFusing_A: 20, share: [0.2, 0.5, 0.3], tau_s: [0.4, 5, 60] };
/** Fuse in front of a heater; lamps ahead of the fuse. */
const heater = (g_S: number) =>
  plantOf(
    circuit(
      supply(120, 0.2),
      shunt("lamps", "supply", 0.01),
      fuse("f", "supply", melt, 0.1),
      shunt("heater", "f", g_S),
    ),
  );
const currentOf = (plant: ReturnType<typeof heater>): number => amperes(plant, "f").re;
/** Melt fraction after t of a constant current from cold: the sum of a (1 - e^(-t/tau)) h. */
const heated = (h: number, t: number): number =>
  melt.share.reduce((sum, a, k) => sum + a * h * -Math.expm1(-t / melt.tau_s[k]), 0);

describe("fuse under a constant current (closed form)", () => {
  it("heats every term by a h (1 - e^(-t/tau))", () => {
    const plant = heater(0.15);
    const h = (currentOf(plant) / 20) ** 2;
    const { end, events } = run(plant, plant.start(), 30);
    expect(events).toEqual([]);
    melt.share.forEach((a, k) => {
      expect(end.y[k]).toBeCloseTo(-a * h * Math.expm1(-30 / melt.tau_s[k]), 12);
    });
    expect(meltFraction(end.y, 0, 3)).toBeCloseTo(heated(h, 30), 12);
  });

  it.each([0.18, 0.25, 0.4, 1])("melts with %d S behind it when the sum reaches 1, within 1e-9 s", (g_S) => {
    const plant = heater(g_S);
    const h = (currentOf(plant) / 20) ** 2;
    const { events } = run(plant, plant.start(), 600);
    expect(events.map(({ name }) => name)).toEqual(["f: melts"]);
    expect(Math.abs(heated(h, events[0].t) - 1)).toBeLessThan(1e-8);
    expect(heated(h, events[0].t)).toBeGreaterThanOrEqual(1 - 1e-14);
  });

  it("never melts at a current just below its minimum, and just above it does", () => {
    const gFor = (ampere: number): number => ampere / (120 - 0.3 * ampere - 0.2 * 1.2);
    const at = (ampere: number) => {
      const plant = heater(gFor(ampere));
      const found = currentOf(plant);
      return { found, melts: run(plant, plant.start(), 1e5).events.length > 0 };
    };
    const [below, above] = [at(19.9), at(20.1)];
    expect(below.found).toBeLessThan(20);
    expect(above.found).toBeGreaterThan(20);
    expect([below.melts, above.melts]).toEqual([false, true]);
  });
});

describe("once melted", () => {
  const plant = heater(0.4);
  const melted = run(plant, plant.start(), 600).events[0].t;
  const { end } = run(plant, plant.start(), melted + 7);

  it("the story goes on without it: dead behind, live before", () => {
    expect(end.t).toBe(melted + 7);
    expect(volts(plant, "heater", 0, end)).toEqual({ re: 0, im: 0 });
    expect(amperes(plant, "f", end)).toEqual({ re: 0, im: 0 });
    expect(volts(plant, "lamps", 0, end).re).toBeCloseTo(120 / (1 + 0.2 * 0.01), 12);
    expect(plant.isLive(partOf(plant, "heater"), end.mode)).toBe(false);
    expect(plant.isLive(partOf(plant, "lamps"), end.mode)).toBe(true);
  });

  it("it cools by e^(-t/tau), term by term (closed form)", () => {
    const h = (currentOf(plant) / 20) ** 2;
    melt.share.forEach((a, k) => {
      const hot = -a * h * Math.expm1(-melted / melt.tau_s[k]);
      expect(end.y[k]).toBeCloseTo(hot * Math.exp(-7 / melt.tau_s[k]), 8);
    });
  });
});

describe("heat remembered between loads (closed form)", () => {
  it("a second load 3 s later starts from what the first left", () => {
    const plant = plantOf(
      circuit(
        supply(120),
        fuse("f", "supply", melt),
        shunt("first", "f", 0.1),
        delayRelay("r", "f", 3, 1),
        cable("c", "r", 0),
        shunt("second", "c", 0.1),
      ),
    );
    const { events } = run(plant, plant.start(asStated), 600);
    const [h1, h2] = [(12 / 20) ** 2, (24 / 20) ** 2];
    const t = events.find(({ name }) => name === "f: melts")?.t ?? Number.NaN;
    const sum = melt.share.reduce((total, a, k) => {
      const before = a * h1 * -Math.expm1(-3 / melt.tau_s[k]);
      return total + a * h2 + (before - a * h2) * Math.exp(-(t - 3) / melt.tau_s[k]);
    }, 0);
    expect(sum).toBeCloseTo(1, 8);
  });

  it("two fuses in a row carry the same current: the weaker melts, the stronger stays", () => {
    const strong = { ...melt, minimumFusing_A: 30 };
    const plant = plantOf(
      circuit(
        supply(120),
        fuse("strong", "supply", strong),
        fuse("weak", "strong", melt),
        shunt("h", "weak", 0.4),
      ),
    );
    const { events, end } = run(plant, plant.start(), 100);
    expect(events.map(({ name }) => name)).toEqual(["weak: melts"]);
    expect(meltFraction(end.y, 0, 3)).toBeLessThan(
      meltFraction(run(plant, plant.start(), events[0].t).end.y, 0, 3),
    );
  });

  it("a fuse without a curve never melts and owns no state", () => {
    const plant = plantOf(circuit(supply(120), fuse("f", "supply", null, 0.5), shunt("h", "f", 10)));
    const { end, events } = run(plant, plant.start(), 10);
    expect(events).toEqual([]);
    expect(end.y).toEqual([]);
    expect(amperes(plant, "f", end).re).toBeCloseTo(1200 / 6, 9);
  });
});
