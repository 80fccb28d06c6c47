import { examples, parseCabinet } from "@startgap/cabinet";
import {
  asStated,
  type Circuit,
  type CircuitPlant,
  currentInto,
  kirchhoffResidual,
  type Mode,
  plantOf,
  powerBalance,
  type Script,
  unphysicalCooling,
} from "@startgap/circuit";
import { run, type Standing } from "@startgap/ode";
import { describe, expect, it } from "vitest";

/** Every motor at once, the first alone, or one after another: by relays where there are any. */
function scripts(circuit: Circuit): Record<string, Script> {
  const motors = circuit.parts.filter((p) => p.is === "motor").map((p) => p.name);
  const byRelay = circuit.parts.some((p) => p.is === "delay relay");
  const held = (relay_s: (stated: number) => number, own_s: number): Script => ({
    delay_s: (_, stated) => relay_s(stated),
    connects_s: (name) => (byRelay || name === motors[0] ? 0 : own_s),
  });
  return {
    one: held(() => Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY),
    together: held(() => 0, 0),
    staggered: held((stated) => stated, 3),
    "staggered by half a second": held(() => 0.5, 0.5),
  };
}

interface Fuse {
  readonly state: number;
  readonly share: readonly number[];
  heatOf(amperes: number): number;
  readonly part: number;
}

function fusesOf({ layout }: CircuitPlant): Fuse[] {
  return layout.circuit.parts.flatMap((p, part) => {
    if (p.is !== "fuse" || p.melt === null) return [];
    const { share, minimumFusing_A } = p.melt;
    const heatOf = (amperes: number): number => (amperes / minimumFusing_A) ** 2;
    return [{ state: layout.places[part].state, share, heatOf, part }];
  });
}

/** Runs a story and measures every law at every recorded sample. */
function measured(plant: CircuitPlant, script: Script, tEnd: number) {
  const fuses = fusesOf(plant);
  const terms = fuses.flatMap((fuse) => fuse.share.map(() => ({ x: [] as number[], end: [] as number[] })));
  const worst = { power: 0, current: 0, infinite: 0, samples: 0, backwards: 0, last: 0 };
  const sample = (t: number, y: readonly number[], mode: Mode): void => {
    worst.samples++;
    worst.power = Math.max(worst.power, powerBalance(plant, y, mode).residual);
    worst.current = Math.max(worst.current, kirchhoffResidual(plant, y, mode));
    const walk = plant.solve(y, mode);
    const all = [t, ...y, ...Object.values(walk).flatMap((column: Float64Array) => [...column])];
    worst.infinite += all.filter((value) => !Number.isFinite(value)).length;
    worst.backwards += t < worst.last ? 1 : 0;
    worst.last = t;
    let k = 0;
    for (const fuse of fuses) {
      const heat = fuse.heatOf(currentInto(walk, fuse.part));
      fuse.share.forEach((a, j) => {
        terms[k].x.push(y[fuse.state + j]);
        terms[k++].end.push(a * heat);
      });
    }
  };
  const { outcome } = run(plant, plant.start(script), tEnd, { recorder: { interior: true, sample } });
  const cooling = Math.max(0, ...terms.map(({ x, end }) => unphysicalCooling(x, end)));
  return { ...worst, cooling, outcome };
}

const cabinets = examples.map(({ key, text }) => {
  const read = parseCabinet(text);
  if ("issues" in read) throw new Error(`example ${key} does not read: ${JSON.stringify(read.issues)}`);
  return [key, read.cabinet.circuit] as const;
});

describe.each(cabinets)("%s (invariant)", (_, circuit) => {
  const plant = plantOf(circuit);

  it.each(Object.keys(scripts(circuit)))("%s: power, current and heat at every sample", (name) => {
    const found = measured(plant, scripts(circuit)[name], 15);
    expect(found.samples).toBeGreaterThan(30);
    expect(found.last).toBe(found.outcome.t);
    expect(found.power).toBeLessThan(1e-6);
    expect(found.current).toBeLessThan(1e-9);
    // A term that follows a slowly changing current is where the solver's tolerance, 1e-6, leaves it.
    expect(found.cooling).toBeLessThan(1e-6);
    expect(found.infinite).toBe(0);
    expect(found.backwards).toBe(0);
    expect(found.outcome.ending).toBe("finished");
  });

  it("ends in the same state whichever plant tells it and whatever it told before", () => {
    const start = (p: CircuitPlant) => p.start(asStated);
    const first = run(plant, start(plant), 8);
    const again = run(plant, start(plant), 8);
    const fresh = plantOf(circuit);
    expect(again.end.y).toEqual(first.end.y);
    expect(run(fresh, start(fresh), 8).end.y).toEqual(first.end.y);
  });

  it("taken up in the middle it ends as it does when told whole, also at the very moment of an event", () => {
    const tolerance = 1e-9;
    const start = plant.start(scripts(circuit).staggered);
    const whole = run(plant, start, 12, { tolerance });
    const moments = [0.05, 0.5, 2.2, ...whole.events.map(({ t }) => t), 7.7].sort((a, b) => a - b);
    const taken: Standing<Mode>[] = [];
    const onSnapshot = (t: number, y: readonly number[], mode: Mode): void =>
      void taken.push({ t, y: y.slice(), mode });
    run(plant, start, 12, { tolerance, snapshots: [...new Set(moments)], onSnapshot });
    expect(taken.length).toBeGreaterThan(5);
    for (const from of taken) {
      const { end, outcome } = run(plant, from, 12, { tolerance });
      expect(outcome.ending).toBe("finished");
      end.y.forEach((value, i) => {
        const want = whole.end.y[i];
        expect(Math.abs(value - want)).toBeLessThan(1e-6 * (1 + Math.abs(want)));
      });
    }
  });
});
