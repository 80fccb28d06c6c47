import { type Mode, plantOf, powerBalance } from "@startgap/circuit";
import { run } from "@startgap/ode";
import { describe, expect, it } from "vitest";
import { type SumLayout, sumLayoutOf, summed } from "../../src/day/sums.ts";
import { exampleCabinet } from "./cabinets.ts";

const { circuit } = exampleCabinet("ice-shed");
const wound = ["midpoint transformer", "control transformer"];

function sumsOver(duration_s: number, tolerance: number): { sums: number[]; layout: SumLayout } {
  const plant = plantOf(circuit);
  const layout = sumLayoutOf(plant, wound);
  const { plant: with_, first } = summed(plant, layout, []);
  const from = plant.start();
  const y = [...from.y, ...new Array<number>(layout.at.count).fill(0)];
  const { end } = run(with_, { ...from, y }, duration_s, { tolerance });
  return { sums: end.y.slice(first), layout };
}

describe("sums beside the states", () => {
  it("are what the power balance adds up to in fine steps, through a start (independent integration, 0.1 %)", () => {
    const plant = plantOf(circuit);
    let [t0, last] = [0, [0, 0, 0]];
    const fine = [0, 0, 0];
    const sample = (t: number, y: readonly number[], mode: Mode): void => {
      const { supply_W, lost_W, shaft_W } = powerBalance(plant, y, mode);
      const now = [supply_W, lost_W, shaft_W];
      now.forEach((power, k) => {
        fine[k] += ((power + last[k]) / 2) * (t - t0);
      });
      [t0, last] = [t, now];
    };
    run(plant, plant.start(), 3, { tolerance: 1e-9, maxStep: 0.01, recorder: { interior: true, sample } });
    const { sums } = sumsOver(3, 1e-8);
    fine.forEach((want, k) => {
      expect(Math.abs(sums[k] / want - 1)).toBeLessThan(1e-3);
    });
  });

  it("go on in straight lines at rest: an hour of running is what its last power makes of it (closed form, 1e-6)", () => {
    const { sums: early } = sumsOver(600, 1e-8);
    const { sums: late } = sumsOver(4200, 1e-8);
    const plant = plantOf(circuit);
    const { end } = run(plant, plant.start(), 600, { tolerance: 1e-8 });
    const { supply_W, lost_W, shaft_W } = powerBalance(plant, end.y, end.mode);
    [supply_W, lost_W, shaft_W].forEach((power, k) => {
      expect(Math.abs((late[k] - early[k]) / (3600 * power) - 1)).toBeLessThan(1e-6);
    });
  });

  it("do not hang on the tolerance: a start's heat to 1e-4 at 1e-6", () => {
    const { sums: coarse, layout } = sumsOver(3, 1e-6);
    const { sums: tight } = sumsOver(3, 1e-9);
    const k = layout.at.motor_J;
    expect(Math.abs(coarse[k] / tight[k] - 1)).toBeLessThan(1e-4);
  });

  it("count a start winding's seconds from its locked-rotor current on: no more than it is in circuit", () => {
    const { sums, layout } = sumsOver(3, 1e-8);
    const equal_s = sums[layout.at.startWinding_s];
    expect(equal_s).toBeGreaterThan(0.1);
    expect(equal_s).toBeLessThan(1);
  });
});
