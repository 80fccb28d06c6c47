import { run } from "@startgap/ode";
import { describe, expect, it } from "vitest";
import type { Circuit, LoadParameters, Mode, Script } from "../src/index.ts";
import { asStated, kirchhoffResidual, plantOf, powerBalance } from "../src/index.ts";
import { foldBack } from "../src/inverter.ts";
import { autotransformer, cable, circuit, delayRelay, fuse, motor, shunt } from "./build.ts";
import { amperes, volts } from "./phasor.ts";
import { inverter } from "./sources.ts";

const size = ({ re, im }: { re: number; im: number }): number => Math.hypot(re, im);
const holds = (name: string, fedBy: string, what: "current" | "power", power_W: number): LoadParameters => ({
  ...shunt(name, fedBy, power_W),
  nominal_V: 240,
  holds: what,
});
/** Stated ohms, ratio X/R 1, that draw so many amperes at 240 V. */
const drawing = (name: string, fedBy: string, ampere: number): LoadParameters =>
  shunt(name, fedBy, (ampere / 240) * Math.SQRT1_2, (ampere / 240) * Math.SQRT1_2);

/** A load that a relay switches on at one second. */
const stepOf = (ampere: number, more: Parameters<typeof inverter>[0] = {}): Circuit =>
  circuit(inverter(more), delayRelay("switch", "inverter", 1, 1000), drawing("step", "switch", ampere));

const eventsOf = (c: Circuit, tEnd: number, script: Script = asStated) => {
  const plant = plantOf(c);
  return run(plant, plant.start(script), tEnd).events.map(({ name, t }) => [name, Number(t.toFixed(9))]);
};

describe("an inverter on impedances (closed form)", () => {
  it("is stiff to its limit, and gives just its limit beyond", () => {
    for (const ampere of [1, 20, 39.999, 40, 40.001, 55, 400, 1e7]) {
      const plant = plantOf(circuit(inverter(), drawing("load", "inverter", ampere)));
      const volt = size(volts(plant, "inverter"));
      expect(volt).toBeCloseTo(ampere <= 40 ? 240 : (240 * 40) / ampere, 9);
      expect(Math.abs(size(amperes(plant, "inverter")) - Math.min(ampere, 40))).toBeLessThan(1e-10);
    }
  });

  it("never gives more for a greater load, and its voltage never rises with it (invariant)", () => {
    let before = 240;
    for (let ampere = 1; ampere < 200; ampere *= 1.07) {
      const plant = plantOf(
        circuit(
          inverter(),
          cable("lead", "inverter", 0.3, 0.1),
          drawing("load", "lead", ampere),
          holds("lamps", "lead", "current", 900),
          holds("set", "lead", "power", 1200),
        ),
      );
      const [v, i] = [size(volts(plant, "inverter")), size(amperes(plant, "inverter"))];
      expect(v).toBeLessThanOrEqual(before + 1e-9);
      expect(i).toBeLessThanOrEqual(40 * (1 + 1e-11));
      if (v < 240) expect(Math.abs(i - 40)).toBeLessThan(40 * 1e-11);
      before = v;
    }
    expect(before).toBeLessThan(120);
  });

  it("closes on the limit also against loads that draw more as the voltage falls", () => {
    for (const watt of [9700, 12000, 20000, 60000]) {
      const plant = plantOf(
        circuit(inverter(), cable("lead", "inverter", 0.2), holds("set", "lead", "power", watt)),
      );
      expect(Math.abs(size(amperes(plant, "inverter")) - 40)).toBeLessThan(1e-9);
      const { y, mode } = plant.start();
      expect(powerBalance(plant, y, mode).residual).toBeLessThan(1e-9);
      expect(kirchhoffResidual(plant, y, mode)).toBeLessThan(1e-9);
    }
  });
});

describe("foldBack", () => {
  const source = (limit: number, seen: number[] = []) => ({
    stiff_V: () => 240,
    limit_A: () => limit,
    give: () => {},
    asked: (a: number) => void seen.push(a),
  });

  it("asks once where the stiff voltage will do, twice where the network is an impedance", () => {
    for (const [ohm, trials] of [
      [10, 1],
      [2, 2],
    ]) {
      const tried: number[] = [];
      const asked: number[] = [];
      foldBack(source(40, asked), (v) => {
        tried.push(v);
        return v / ohm;
      });
      expect(tried).toHaveLength(trials);
      expect(asked).toEqual([240 / ohm]);
      expect(tried[trials - 1] / ohm).toBeLessThanOrEqual(40 * (1 + 1e-12));
    }
  });

  it("ends with the answer, whatever rising curve the network has, in few trials (invariant)", () => {
    for (const power of [0.05, 0.3, 0.5, 1, 2, 5, 20]) {
      let trials = 0;
      let last = 0;
      const curve = (v: number): number => 500 * (v / 240) ** power;
      foldBack(source(40), (v) => {
        trials++;
        last = v;
        return curve(v);
      });
      expect(Math.abs(curve(last) - 40)).toBeLessThan(1e-9);
      expect(trials).toBeLessThan(power < 0.1 ? 40 : 20);
    }
  });

  it("stays below a limit that a jump of the current passes", () => {
    let last = 0;
    foldBack(source(40), (v) => {
      last = v;
      return v > 100 ? 200 : 1;
    });
    expect(last).toBeLessThanOrEqual(100);
    expect(last).toBeGreaterThan(99.999999);
  });
});

describe("surge time", () => {
  it("is up after it was stated to be, and the inverter shuts down after it has held the voltage down", () => {
    expect(eventsOf(stepOf(60), 20)).toEqual([
      ["switch: is energised", 0],
      ["switch: closes", 1],
      ["inverter: gives more than its rating", 1],
      ["inverter: reaches its current limit", 1],
      ["inverter: surge time is up", 6],
      ["switch: loses its voltage", 6],
      ["inverter: shuts down", 7],
    ]);
    expect(eventsOf(stepOf(30), 20).map(([name]) => name)).toEqual([
      "switch: is energised",
      "switch: closes",
      "inverter: gives more than its rating",
      "inverter: surge time is up",
      "inverter: shuts down",
      "switch: loses its voltage",
    ]);
    expect(eventsOf(stepOf(19.9), 20)).toHaveLength(2);
  });

  it("leaves everything dead once it has shut down", () => {
    const plant = plantOf(stepOf(60));
    const { end } = run(plant, plant.start(), 20);
    expect(size(volts(plant, "inverter", 0, end))).toBe(0);
    expect(plant.isLive(0, end.mode)).toBe(false);
    expect(plant.isLive(2, end.mode)).toBe(false);
    expect(powerBalance(plant, end.y, end.mode).residual).toBe(0);
  });

  it("holds the current at the continuous one before that", () => {
    const plant = plantOf(stepOf(60));
    const { end } = run(plant, plant.start(), 6.5);
    expect(size(amperes(plant, "inverter", end))).toBeCloseTo(20, 10);
    expect(size(volts(plant, "inverter", 0, end))).toBeCloseTo(80, 9);
  });

  it("comes back as fast as it went", () => {
    const burst = (name: string, ampere: number, heat: number) => [
      fuse(`${name} fuse`, name === "a" ? "inverter" : "late", {
        minimumFusing_A: 0.001,
        share: [1],
        tau_s: [heat],
      }),
      drawing(name, `${name} fuse`, ampere),
    ];
    // A fuse of tau seconds at a current far beyond its own opens after tau/(I/I0)^2: three seconds, then two.
    const heat = (ampere: number, seconds: number): number => seconds * (ampere / 0.001) ** 2;
    const c = circuit(
      inverter(),
      ...burst("a", 30, heat(30, 3)),
      delayRelay("late", "inverter", 5, 1000),
      ...burst("b", 30, heat(30, 9)),
    );
    const names = eventsOf(c, 30).filter(([name]) => String(name).startsWith("inverter"));
    // Used 3 s by 3 s, 2 s of it back by 5 s: 4 s left of 5.
    expect(names.map(([name, t]) => [name, Number(Number(t).toFixed(5))])).toEqual([
      ["inverter: gives more than its rating", 0],
      ["inverter: is back within its rating", 3],
      ["inverter: gives more than its rating", 5],
      ["inverter: surge time is up", 9],
      ["inverter: shuts down", 10],
    ]);
  });

  it("of an inverter without a surge is the time at its limit", () => {
    const names = eventsOf(stepOf(60, { limit_A: 20, surge_s: 2, stops_s: 0.5 }), 20);
    expect(names.filter(([name]) => String(name).includes("up") || String(name).includes("down"))).toEqual([
      ["inverter: surge time is up", 3],
      ["inverter: shuts down", 3.5],
    ]);
  });
});

describe("motors on an inverter", () => {
  const small = (name: string) =>
    motor(name, "t", {
      inertia_kgm2: 0.02,
      drives: { atRest_Nm: 0.3, atFullSpeed_Nm: 0.9, shape: "square" },
    });
  const cabinet = (limit_A: number): Circuit =>
    circuit(
      { ...inverter({ limit_A, continuous_A: 12 }), voltage_V: 220 },
      autotransformer("t", "inverter", [110, 110], 0.1, 0.1),
      small("a"),
      { ...small("b"), leg: "second" },
      { ...holds("lamps", "t", "current", 220), nominal_V: 220, leg: "both" },
    );
  const second = (delay_s: number): Script => ({
    ...asStated,
    connects_s: (name) => (name === "b" ? delay_s : 0),
  });

  it.each([
    [100, 0],
    [14, 0],
    [14, 2],
    [14, 0.2],
  ])(
    "limit %f A, the second after %f s: limit, power and current at every sample (invariant)",
    (limit_A, delay_s) => {
      const plant = plantOf(cabinet(limit_A));
      const worst = { power: 0, kirchhoff: 0, ampere: 0, samples: 0 };
      const sample = (_: number, y: readonly number[], mode: Mode): void => {
        worst.samples++;
        worst.power = Math.max(worst.power, powerBalance(plant, y, mode).residual);
        worst.kirchhoff = Math.max(worst.kirchhoff, kirchhoffResidual(plant, y, mode));
        worst.ampere = Math.max(worst.ampere, size(amperes(plant, "inverter", { y, mode })));
      };
      const { outcome } = run(plant, plant.start(second(delay_s)), 12, {
        recorder: { interior: true, sample },
      });
      expect(outcome.ending).toBe("finished");
      expect(worst.samples).toBeGreaterThan(30);
      expect(worst.power).toBeLessThan(1e-6);
      expect(worst.kirchhoff).toBeLessThan(1e-9);
      expect(worst.ampere).toBeLessThanOrEqual(limit_A * (1 + 1e-11));
    },
  );

  it("start more slowly together than one after the other where the limit holds the voltage down", () => {
    const closing = (delay_s: number): number => {
      const plant = plantOf(cabinet(14));
      const { events } = run(plant, plant.start(second(delay_s)), 12);
      return (events.find(({ name }) => name === "b: start switch opens")?.t ?? 99) - delay_s;
    };
    expect(closing(0)).toBeGreaterThan(1.2 * closing(3));
  });
});
