import { asStated, waveBalance, wavePlantOf } from "@startgap/circuit";
import { run } from "@startgap/ode";
import { describe, expect, it } from "vitest";
import { start, startCircuit, switchOn, switchOnCircuit, synchronous_radps } from "./given.ts";

/** As a study runs them, and tight. */
const CLAIMED = { tolerance: 1e-5, times: 1e-3, peaks: 3e-3 };
const TIGHT = { tolerance: 1e-9, times: 1e-6, peaks: 1e-5 };

const off = (got: number, want: number): number => Math.abs(got / want - 1);
const grid = (end_s: number, rate_Hz: number): number[] =>
  Array.from({ length: Math.round(end_s * rate_Hz) }, (_, k) => (k + 1) / rate_Hz);

function toldStart(tolerance: number) {
  const plant = wavePlantOf(startCircuit());
  const motors = ["motor 1", "motor 2"].map((name) =>
    plant.layout.circuit.parts.findIndex((p) => p.name === name),
  );
  const connects = start.given.motors.map((m) => m.connects);
  const script = { ...asStated, connects_s: (name: string) => connects[name === "motor 1" ? 0 : 1] };
  const seen = { line: 0, capacitors: [0, 0], at90: [0, 0], balance: 0 };
  let before: { t: number; speeds: number[] } = { t: 0, speeds: [0, 0] };
  const result = run(plant, plant.start({ script, angle_rad: start.given.angle }), start.given.end, {
    tolerance,
    maxStep: 1 / 240,
    maxSteps: 200_000,
    snapshots: grid(start.given.end, 60_000),
    onSnapshot: (t, y, mode) => {
      seen.line = Math.max(seen.line, Math.abs(plant.solve(t, y, mode).into[0]));
      seen.balance = Math.max(seen.balance, waveBalance(plant, t, y, mode));
      const speeds = motors.map((part) => y[plant.speedStates[part]]);
      const level = 0.9 * synchronous_radps;
      for (const k of [0, 1]) {
        const voltage = Math.abs(y[plant.firstState[motors[k]] + 4]);
        seen.capacitors[k] = Math.max(seen.capacitors[k], voltage);
        if (seen.at90[k] > 0 || speeds[k] < level) continue;
        const share = (level - before.speeds[k]) / (speeds[k] - before.speeds[k]);
        seen.at90[k] = before.t + share * (t - before.t);
      }
      before = { t, speeds };
    },
  });
  return { seen, result, speeds: before.speeds };
}

describe.each([CLAIMED, TIGHT])("at tolerance $tolerance (independent code: SciPy)", (asked) => {
  describe(start.given.name, () => {
    const { seen, result, speeds } = toldStart(asked.tolerance);
    const { found } = start;
    it("raises the same events in the same order", () => {
      const ours = result.events.filter(({ name }) => !name.endsWith("is connected"));
      expect(ours.map(({ name }) => name)).toEqual(found.events.map(([name]) => name));
      for (const [i, { t }] of ours.entries())
        expect(off(t, Number(found.events[i][1]))).toBeLessThan(asked.times);
    });
    it("is up at the same times, at the same speeds", () => {
      seen.at90.forEach((t, k) => {
        expect(off(t, found.at90_s[k])).toBeLessThan(asked.times);
        expect(off(speeds[k], found.speeds_radps[k])).toBeLessThan(asked.times);
      });
    });
    it("peaks as high in the line and across both capacitors", () => {
      expect(off(seen.line, found.linePeak_A)).toBeLessThan(asked.peaks);
      seen.capacitors.forEach((v, k) => {
        expect(off(v, found.capacitorPeaks_V[k])).toBeLessThan(asked.peaks);
      });
    });
    it("balances its power at every sample (invariant, 1e-6)", () => {
      expect(seen.balance).toBeLessThan(1e-6);
    });
  });

  it(`${switchOn.given.name}: every cycle's peak, its time, and the flux at the end`, () => {
    const { given, found } = switchOn;
    const plant = wavePlantOf(switchOnCircuit());
    const peaks = found.peaks.map(() => [0, 0]);
    const how = { angle_rad: given.angle, fromRest: true, residual: given.residual };
    const { end } = run(plant, plant.start(how), given.end, {
      tolerance: asked.tolerance,
      maxStep: 1 / 240,
      snapshots: grid(given.end, 120_000),
      onSnapshot: (t, y, mode) => {
        const cycle = Math.min(peaks.length - 1, Math.floor(t * 60 - 1e-9));
        const i = plant.solve(t, y, mode).into[0];
        if (Math.abs(i) > Math.abs(peaks[cycle][1])) peaks[cycle] = [t, i];
      },
    });
    peaks.forEach(([t, i], k) => {
      expect(off(i, found.peaks[k][1])).toBeLessThan(asked.peaks);
      expect(Math.abs(t - found.peaks[k][0])).toBeLessThan(5e-5);
    });
    expect(off(end.y[plant.firstState[1]], found.endFlux_Vs)).toBeLessThan(asked.peaks);
  });
});
