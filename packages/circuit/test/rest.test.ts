import { type Plant, type Run, run } from "@startgap/ode";
import { describe, expect, it } from "vitest";
import type { Circuit, LoadTorque, Machine, Mode, MotorParameters } from "../src/index.ts";
import { asStated, plantOf, steadyState } from "../src/index.ts";
import { autotransformer, cable, circuit, fuse, motor, quarterHorse, shunt, supply } from "./build.ts";

const synchronous = 60 * Math.PI;
const load = (
  atRest_Nm: number,
  atFullSpeed_Nm: number,
  shape: LoadTorque["shape"] = "square",
): LoadTorque => ({
  atRest_Nm,
  atFullSpeed_Nm,
  shape,
});
const k = 1 / 4.5;
const smaller = <T extends { r_ohm: number; x_ohm: number }>(z: T): T => ({
  ...z,
  r_ohm: z.r_ohm * k,
  x_ohm: z.x_ohm * k,
});
/** The quarter-horsepower machine with every impedance divided by 4.5. */
const larger: Machine = {
  ...quarterHorse,
  main: smaller(quarterHorse.main),
  rotor: smaller(quarterHorse.rotor),
  rotorAtStandstill: smaller(quarterHorse.rotorAtStandstill),
  magnetising_ohm: 66.8 * k,
  auxiliary: smaller({ r_ohm: 7.14, x_ohm: 3.22, turnsRatio: 1.18 }),
  startCapacitor: smaller({ r_ohm: 3, x_ohm: 14.5 }),
};
const pump = (
  name: string,
  fedBy: string,
  inertia_kgm2: number,
  drives: LoadTorque,
  more = {},
): MotorParameters => motor(name, fedBy, { machine: larger, inertia_kgm2, drives, ...more });
const melt = (minimumFusing_A: number) => ({
  minimumFusing_A,
  share: [0.05, 0.35, 0.6],
  tau_s: [0.3, 6, 120],
});

/** Stories by name: circuit, moments at which motors are connected, and how long they go on. */
const stories: Record<string, { circuit: Circuit; at?: Record<string, number>; tEnd: number }> = {
  "two motors, inertias forty to one, weak supply": {
    circuit: circuit(
      supply(120, 0.3, 0.2),
      fuse("f", "supply", melt(60)),
      pump("light", "f", 0.008, load(2, 6)),
      pump("heavy", "f", 0.32, load(1, 9)),
    ),
    tEnd: 25,
  },
  "three motors on two legs, one after another": {
    circuit: circuit(
      supply(240, 0.5, 0.4),
      fuse("f", "supply", melt(45)),
      autotransformer("t", "f", [120, 120], 0.2, 0.1),
      pump("a", "t", 0.04, load(3, 9)),
      { ...pump("b", "t", 0.02, load(1, 8, "linear")), leg: "second" },
      pump("c", "t", 0.09, load(0, 5)),
      shunt("lamps", "t", 0.03),
    ),
    at: { b: 3, c: 7 },
    tEnd: 20,
  },
  "one stuck, the other running": {
    circuit: circuit(
      supply(120, 0.1, 0.1),
      fuse("f", "supply", melt(90)),
      pump("stuck", "f", 0.03, load(30, 30)),
      pump("running", "f", 0.05, load(2, 8)),
    ),
    tEnd: 15,
  },
  "creeping at a tenth of its speed under a load that grows with it": {
    circuit: circuit(
      supply(120, 0.05, 0.05),
      fuse("f", "supply", melt(95)),
      pump("creeper", "f", 0.05, load(0, 140, "linear")),
      pump("other", "f", 0.02, load(1, 5)),
    ),
    tEnd: 12,
  },
  "windage alone, no load": {
    circuit: circuit(
      supply(120, 0.2, 0.1),
      fuse("f", "supply", melt(60)),
      pump("idle", "f", 0.03, load(0, 0), { machine: { ...larger, rotationalLoss_W: 40 } }),
    ),
    tEnd: 10,
  },
  "a fuse that melts long after the start": {
    circuit: circuit(
      supply(120, 0.2, 0.1),
      fuse("f", "supply", melt(26)),
      cable("c", "f", 0.05),
      pump("loaded", "c", 0.04, load(2, 9)),
    ),
    tEnd: 400,
  },
  "a fuse that melts while the motor still settles": {
    circuit: circuit(
      supply(120, 0.2, 0.1),
      fuse("f", "supply", { minimumFusing_A: 20, share: [0.3, 0.7], tau_s: [0.5, 9] }),
      pump("loaded", "f", 0.2, load(2, 9)),
    ),
    tEnd: 30,
  },
};

interface Told {
  readonly result: Run<Mode>;
  readonly samples: readonly number[][];
}

function tell(plant: Plant<Mode>, start: Run<Mode>["end"], tEnd: number, tolerance: number): Told {
  const samples: number[][] = [];
  const snapshots = Array.from({ length: 60 }, (_, i) => ((i + 0.37) * tEnd) / 60);
  const onSnapshot = (_: number, y: readonly number[]): void => void samples.push(y.slice());
  return { result: run(plant, start, tEnd, { tolerance, snapshots, onSnapshot }), samples };
}

interface Errors {
  readonly speed: number;
  readonly heat: number;
}

/** Largest differences over 1 + value, of speeds and of fuse terms. */
function errorsOf(names: readonly string[], got: Told, want: Told): Errors {
  const largest = (wanted: boolean): number =>
    Math.max(
      ...names.flatMap((name, s) =>
        name.startsWith("speed") === wanted
          ? got.samples.map(
              (y, i) => Math.abs(y[s] - want.samples[i][s]) / (1 + Math.abs(want.samples[i][s])),
            )
          : [],
      ),
    );
  return { speed: largest(true), heat: largest(false) };
}

/** A story with rest, without it, and without it a thousand times more exactly. */
function told(name: string, tolerance: number) {
  const story = stories[name];
  const plant = plantOf(story.circuit);
  const start = plant.start({ ...asStated, connects_s: (m) => story.at?.[m] ?? 0 });
  const restless = { ...plant, rest: undefined };
  const exact = tell(restless, start, story.tEnd, tolerance / 1000);
  const [with_, without] = [plant, restless].map((p) => tell(p, start, story.tEnd, tolerance));
  const errors = [with_, without].map((one) => errorsOf(plant.stateNames, one, exact));
  return { with_: with_.result, without: without.result, exact: exact.result, errors };
}

describe.each(Object.keys(stories))("%s: at rest in closed form as integrated throughout", (name) => {
  it.each([1e-5, 1e-6, 1e-7])(
    "at tolerance %d: ten tolerances at most are added to what integration itself leaves",
    (tolerance) => {
      const { with_, exact, errors } = told(name, tolerance);
      expect(errors[0].speed).toBeLessThan(errors[1].speed + 10 * tolerance);
      expect(errors[0].heat).toBeLessThan(errors[1].heat + 2 * tolerance);
      expect(with_.events.map((event) => event.name)).toEqual(exact.events.map((event) => event.name));
      with_.events.forEach(({ t }, i) => {
        expect(Math.abs(t - exact.events[i].t)).toBeLessThan(30 * tolerance * (1 + t));
      });
    },
  );

  it("with less work", () => {
    const { with_, without } = told(name, 1e-6);
    expect(with_.count.evaluations).toBeLessThan(0.6 * without.count.evaluations);
  });
});

/** Torque of the machine on 110 V with its switch open, and where it is steepest uphill. */
const torqueAt = (slip: number): number => steadyState(quarterHorse, 110, slip, false).torque_Nm;
function breakdown(): { slip: number; torque: number } {
  let best = { slip: 0.2, torque: 0 };
  for (let slip = 0.02; slip < 0.7; slip += 1e-4) {
    const torque = torqueAt(slip);
    if (torque > best.torque) best = { slip, torque };
  }
  return best;
}

/** The machine already turning with its switch open, at a speed, against a constant torque. */
const turningAt = (speed_radps: number, torque: number, machine = quarterHorse) => {
  const plant = plantOf(
    circuit(supply(110), motor("m", "supply", { machine, drives: load(torque, torque) })),
  );
  const mode = plant
    .start()
    .mode.map((m, i) => (i === 1 ? { ...(m as object), startSwitch: false, turning: true } : m));
  return { plant, start: { t: 0, y: [speed_radps], mode } };
};

const mainAlone = { ...quarterHorse, auxiliary: null, startCapacitor: null, startSwitch: null };

describe("what is no rest", () => {
  const top = breakdown();

  it.each([1e-2, 1e-3, 1e-4])(
    "%d rad/s above or below an unstable speed the motor leaves it, each its own way",
    (off) => {
      // On the far side of breakdown the machine's torque falls with falling speed: no rest there.
      let [low, high] = [top.slip, 0.8];
      const torque = 0.8 * top.torque;
      while (high - low > 1e-15) {
        const middle = (low + high) / 2;
        if (torqueAt(middle) > torque) low = middle;
        else high = middle;
      }
      const unstable = (1 - low) * synchronous;
      expect(unstable).toBeGreaterThan(0.46 * synchronous);
      for (const sign of [1, -1]) {
        const { plant, start } = turningAt(unstable + sign * off, torque, mainAlone);
        const told = run(plant, start, 20);
        const throughout = run({ ...plant, rest: undefined }, start, 20, { tolerance: 1e-9 });
        expect(Math.sign(told.end.y[0] - unstable)).toBe(sign);
        expect(Math.abs(told.end.y[0] - unstable)).toBeGreaterThan(5);
        expect(told.end.y[0]).toBeCloseTo(throughout.end.y[0], 3);
      }
    },
  );

  it.each([1.02, 1.002, 1.0002, 1.00002])(
    "a load %d times the breakdown torque pulls it out, however slowly",
    (factor) => {
      const { plant, start } = turningAt(0.97 * synchronous, factor * top.torque);
      const closes = [plant, { ...plant, rest: undefined }].map((p) => {
        const { events } = run(p, start, 1000, { tolerance: 1e-8 });
        return events.find(({ name }) => name === "m: start switch closes")?.t ?? Number.NaN;
      });
      expect(closes[0]).toBeGreaterThan(0);
      expect(Math.abs(closes[0] / closes[1] - 1)).toBeLessThan(1e-4);
    },
  );

  it.each([0.98, 0.998, 0.9998])("a load %d times the breakdown torque is carried", (factor) => {
    const { plant, start } = turningAt(0.97 * synchronous, factor * top.torque);
    const { end, events } = run(plant, start, 1000, { tolerance: 1e-8 });
    expect(events).toEqual([]);
    expect(torqueAt(1 - end.y[0] / synchronous) / (factor * top.torque)).toBeCloseTo(1, 6);
    expect(1 - end.y[0] / synchronous).toBeLessThan(top.slip);
  });

  it("motors that have long settled cost nothing, also when a run begins with them (work count)", () => {
    const plant = plantOf(
      circuit(
        supply(120, 0.3, 0.2),
        pump("a", "supply", 0.04, load(3, 9)),
        pump("b", "supply", 0.02, load(1, 8)),
      ),
    );
    let from = plant.start();
    for (let stretch = 0; stretch < 6; stretch++) {
      const { end, count, outcome } = run(plant, from, from.t + 600, { tolerance: 1e-8 });
      expect(outcome.ending).toBe("finished");
      if (stretch > 0) expect(count.evaluations).toBe(0);
      from = end;
    }
  });

  it("a shaft that coasts under windage alone is never held", () => {
    const machine = { ...quarterHorse, rotationalLoss_W: 30 };
    const plant = plantOf(circuit(supply(0), motor("m", "supply", { machine, inertia_kgm2: 0.05 })));
    const mode = plant.start().mode.map((m, i) => (i === 1 ? { ...(m as object), turning: true } : m));
    const rate = 30 / synchronous ** 2 / 0.05;
    for (const t of [10, 100, 400]) {
      const { end } = run(plant, { t: 0, y: [150], mode }, t, { tolerance: 1e-8 });
      expect(end.y[0] / (150 * Math.exp(-rate * t))).toBeCloseTo(1, 4);
    }
  });
});
