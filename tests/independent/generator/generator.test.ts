import { type CircuitPlant, kirchhoffResidual, type Mode, plantOf, powerBalance } from "@startgap/circuit";
import { run } from "@startgap/ode";
import { describe, expect, it } from "vitest";
import { circuitOf, type Entry, entries, scriptOf, shortName } from "./given.ts";

/** Asked of every figure; a lowest voltage is read off recorded points and may lie between them. */
const CLAIMED = { tolerance: 1e-6, figures: 5e-5, sag: 1e-4 };
const TIGHT = { tolerance: 1e-9, figures: 5e-8, sag: 1e-4 };

const off = (got: number, want: number, least: number): number =>
  Math.abs(got - want) / Math.max(Math.abs(want), least);

function read(plant: CircuitPlant, y: readonly number[], mode: Mode): number[] {
  const { vr, vi, ir, ii } = plant.solve(y, mode);
  const volts = (part: number): number => {
    const node = plant.layout.told[part];
    return Math.hypot(vr[node], vi[node]);
  };
  const speeds = [3, 4].map((part) => y[plant.layout.places[part].state]);
  return [volts(0), volts(1), Math.hypot(ir[0], ii[0]), ...speeds];
}

function tell(plant: CircuitPlant, { given }: Entry, tolerance: number) {
  const readings: number[][] = [];
  const lowest = [given.volts, given.volts];
  const worst = { power: 0, current: 0 };
  const result = run(plant, plant.start(scriptOf(given)), given.end, {
    tolerance,
    snapshots: [...given.samples, given.end],
    onSnapshot: (_, y, mode) => void readings.push(read(plant, y, mode)),
    recorder: {
      interior: true,
      sample(_, y, mode) {
        const [terminal, bus] = read(plant, y, mode);
        lowest[0] = Math.min(lowest[0], terminal);
        lowest[1] = Math.min(lowest[1], bus);
        worst.power = Math.max(worst.power, powerBalance(plant, y, mode).residual);
        worst.current = Math.max(worst.current, kirchhoffResidual(plant, y, mode));
      },
    },
  });
  return { readings, lowest, worst, result };
}

describe.each(entries.map((entry) => [entry.given.name, entry] as const))("%s", (_, entry) => {
  const { given, found } = entry;
  const plant = plantOf(circuitOf(given));

  describe.each([CLAIMED, TIGHT])("at tolerance $tolerance (independent code: SciPy)", (asked) => {
    const { readings, lowest, worst, result } = tell(plant, entry, asked.tolerance);

    it("raises the same events in the same order, each within the tolerance in time", () => {
      expect(result.outcome.ending).toBe("finished");
      const ours = result.events.flatMap(({ name, t }) => {
        const short = shortName(name);
        return short === null ? [] : [[short, t] as const];
      });
      expect(ours.map(([name]) => name)).toEqual(found.events.map(([name]) => name));
      for (const [i, [, t]] of ours.entries())
        expect(off(t, found.events[i][1] as number, 0.1)).toBeLessThan(asked.figures);
    });

    it("gives the same voltages, line current and speeds on the way and at the end", () => {
      const wanted = [...found.samples, found.end].map((at) => [
        at.terminal_V,
        at.bus_V,
        at.line_A,
        ...at.speeds_radps,
      ]);
      expect(readings).toHaveLength(wanted.length);
      const errors = readings.flatMap((reading, i) => reading.map((got, k) => off(got, wanted[i][k], 1)));
      expect(Math.max(...errors)).toBeLessThan(asked.figures);
    });

    it("sags as deep", () => {
      lowest.forEach((got, k) => {
        expect(off(got, found.lowest_V[k], 1)).toBeLessThan(asked.sag);
      });
    });

    it("keeps power and current in balance at every sample (invariant)", () => {
      expect(worst.power).toBeLessThan(1e-6);
      expect(worst.current).toBeLessThan(1e-9);
    });
  });
});
