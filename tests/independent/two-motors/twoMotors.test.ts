import { type CircuitPlant, type Mode, plantOf } from "@startgap/circuit";
import { run } from "@startgap/ode";
import { describe, expect, it } from "vitest";
import { circuitOf, type Entry, entries, scriptOf, shortName } from "./given.ts";

/** Asked of every figure; a lowest voltage is read off recorded points and may lie between them. */
const CLAIMED = { tolerance: 1e-6, figures: 2e-4, sag: 2e-4 };
const TIGHT = { tolerance: 1e-9, figures: 2e-6, sag: 1e-5 };
interface Reading {
  readonly t: number;
  readonly line_A: number;
  readonly lamps_V: number;
  readonly motors_V: readonly number[];
  readonly motors_A: readonly number[];
  readonly speeds_radps: readonly number[];
  readonly terms: readonly number[];
}

const indexOf = ({ layout }: CircuitPlant, name: string): number =>
  layout.circuit.parts.findIndex((p) => p.name === name);

function read(plant: CircuitPlant, t: number, y: readonly number[], mode: Mode): Reading {
  const { vr, vi, ir, ii } = plant.solve(y, mode);
  const { places } = plant.layout;
  const amperes = (i: number): number => Math.hypot(ir[i], ii[i]);
  const volts = (i: number): number => Math.hypot(vr[places[i].at], vi[places[i].at]);
  const motors = [indexOf(plant, "motor 1"), indexOf(plant, "motor 2")];
  const fuse = indexOf(plant, "fuse");
  return {
    t,
    line_A: amperes(0),
    lamps_V: volts(indexOf(plant, "lamps")),
    motors_V: motors.map(volts),
    motors_A: motors.map(amperes),
    speeds_radps: motors.map((i) => y[places[i].state]),
    terms: y.slice(places[fuse].state, places[fuse].state + plant.models[fuse].stateNames.length),
  };
}

const tell = (plant: CircuitPlant, { given }: Entry, tolerance: number) => {
  const readings: Reading[] = [];
  const snapshots = [...given.samples, given.end];
  const onSnapshot = (t: number, y: readonly number[], mode: Mode): void =>
    void readings.push(read(plant, t, y, mode));
  const lowest = [1, 1, 1].map(() => given.volts);
  const recorder = {
    interior: true,
    sample(t: number, y: readonly number[], mode: Mode) {
      const { lamps_V, motors_V, line_A } = read(plant, t, y, mode);
      const bothOn = plant.isLive(plant.layout.places.length - 1, mode) && line_A > 0;
      if (!bothOn || t < Math.max(...given.starts)) return;
      [lamps_V, ...motors_V].forEach((v, k) => {
        lowest[k] = Math.min(lowest[k], v);
      });
    },
  };
  const start = plant.start(scriptOf(given));
  const result = run(plant, start, given.end, { tolerance, snapshots, onSnapshot, recorder });
  return { readings, result, lowest, start };
};

/** Time from its own start to 95 % of its last speed, by halving runs that end ever closer to it. */
function runUp_s(
  plant: CircuitPlant,
  { given }: Entry,
  motor: number,
  final: number,
  tolerance: number,
): number {
  const start = plant.start(scriptOf(given));
  const { state } = plant.layout.places[indexOf(plant, `motor ${motor + 1}`)];
  let [low, high] = [given.starts[motor], given.end];
  while (high - low > 1e-9) {
    const middle = (low + high) / 2;
    if (run(plant, start, middle, { tolerance }).end.y[state] < 0.95 * final) low = middle;
    else high = middle;
  }
  return high - given.starts[motor];
}

const off = (got: number, want: number, least = 1e-6): number =>
  Math.abs(got - want) / Math.max(Math.abs(want), least);

const figures = (r: Omit<Reading, "terms">): number[] => [
  r.line_A,
  r.lamps_V,
  ...r.motors_V,
  ...r.motors_A,
  ...r.speeds_radps,
];

describe.each(entries.map((entry) => [entry.given.name, entry] as const))("%s", (_, entry) => {
  const { given, found } = entry;
  const plant = plantOf(circuitOf(given));

  describe.each([CLAIMED, TIGHT])("at tolerance $tolerance (independent code: SciPy)", (asked) => {
    const { readings, result, lowest } = tell(plant, entry, asked.tolerance);
    const { events, end, outcome } = result;

    it("raises the same events in the same order, each within the tolerance in time", () => {
      expect(outcome.ending).toBe("finished");
      const ours = events.flatMap(({ name, t }) => {
        const short = shortName(name);
        return short === null ? [] : [[short, t] as const];
      });
      expect(ours.map(([name]) => name)).toEqual(found.events.map(([name]) => name));
      for (const [i, [, t]] of ours.entries())
        expect(off(t, found.events[i][1] as number)).toBeLessThan(asked.figures);
    });

    it("draws the same currents at the same voltages and speeds on the way and at the end", () => {
      const wanted = [...found.samples, found.end];
      expect(readings.map(({ t }) => t)).toEqual(wanted.map(({ t }) => t));
      for (const [i, reading] of readings.entries()) {
        const want = figures(wanted[i]);
        const errors = figures(reading).map((got, k) => off(got, want[k], 1e-3));
        expect(Math.max(...errors)).toBeLessThan(asked.figures);
      }
    });

    it("sags as far at the lamps and at both motors", () => {
      const errors = lowest.map((volts, k) => off(volts, found.lowest_V[k]));
      expect(Math.max(...errors)).toBeLessThan(asked.sag);
    });

    it("runs each motor up to 95 % of its last speed in the same time", () => {
      found.runUp_s.forEach((want, j) => {
        const final = read(plant, given.end, end.y, end.mode).speeds_radps[j];
        if (want === null) return;
        expect(off(runUp_s(plant, entry, j, final, asked.tolerance), want)).toBeLessThan(asked.figures);
      });
    });

    it("heats every term of the fuse alike", () => {
      const wanted = [...found.samples, found.end];
      for (const [i, { terms }] of readings.entries())
        terms.forEach((x, k) => {
          expect(off(x, wanted[i].terms[k], 1e-2)).toBeLessThan(asked.figures);
        });
    });
  });
});
