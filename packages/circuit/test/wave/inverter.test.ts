import { run } from "@startgap/ode";
import { describe, expect, it } from "vitest";
import { asStated, type Circuit, plantOf, waveBalance, wavePlantOf } from "../../src/index.ts";
import { circuit, delayRelay, motor, shunt } from "../build.ts";
import { inverter } from "../sources.ts";

const CYCLE_s = 1 / 60;
const SAMPLES = 128;

/** Stated ohms, ratio X/R 1, that draw so many amperes at 240 V. */
const drawing = (ampere: number) =>
  shunt("load", "switch", (ampere / 240) * Math.SQRT1_2, (ampere / 240) * Math.SQRT1_2);
const stepOf = (ampere: number, more: Parameters<typeof inverter>[0] = {}): Circuit =>
  circuit(inverter(more), delayRelay("switch", "inverter", 1, 1000), drawing(ampere));

/** Events, and rms of the inverter's voltage and current over the cycle before each of some times. */
function told(c: Circuit, times: readonly number[]) {
  const plant = wavePlantOf(c);
  const [out] = plant.layout.places[0].out;
  const squares = times.map(() => ({ v: 0, i: 0 }));
  let balance = 0;
  const { events, outcome, end } = run(plant, plant.start(), times[times.length - 1], {
    method: "runge-kutta",
    tolerance: 1e-7,
    maxStep: CYCLE_s / 4,
    maxSteps: 1e6,
    snapshots: times.flatMap((end_s) =>
      Array.from({ length: SAMPLES }, (_, k) => end_s - (CYCLE_s * (SAMPLES - 1 - k)) / SAMPLES),
    ),
    onSnapshot: (t, y, mode) => {
      const { v, into } = plant.solve(t, y, mode);
      const one = squares[times.findIndex((end_s) => t <= end_s + 1e-9)];
      one.v += v[out] ** 2 / SAMPLES;
      one.i += into[0] ** 2 / SAMPLES;
      balance = Math.max(balance, waveBalance(plant, t, y, mode));
    },
  });
  expect(outcome.ending).toBe("finished");
  return {
    events,
    end,
    plant,
    balance,
    rms: squares.map(({ v, i }) => ({ volt: Math.sqrt(v), ampere: Math.sqrt(i) })),
  };
}

const of = (events: readonly { name: string; t: number }[], source: string) =>
  events.filter(({ name }) => name.startsWith(`${source}: `) && !name.includes("passes zero"));

describe("an inverter's waveform on impedances", () => {
  it.each([10, 39, 55, 90])("gives its rating or its limit to a load of %d A (envelope, 1e-3)", (ampere) => {
    const { rms, balance } = told(stepOf(ampere), [1.4, 1.6]);
    for (const { volt, ampere: given } of rms) {
      expect(Math.abs(given / Math.min(40, ampere) - 1)).toBeLessThan(1e-3);
      expect(Math.abs(volt / (240 * Math.min(1, 40 / ampere)) - 1)).toBeLessThan(1e-3);
    }
    expect(balance).toBeLessThan(1e-9);
  });

  it("is down at its limit within five cycles (its own control, 3 %)", () => {
    const [{ ampere }] = told(stepOf(55), [1 + 6 * CYCLE_s]).rms;
    expect(Math.abs(ampere / 40 - 1)).toBeLessThan(0.03);
  });

  it("surges, is held at its rating and shuts down when the envelope does, within two cycles", () => {
    const c = stepOf(55, { surge_s: 0.5, stops_s: 0.4 });
    const plant = plantOf(c);
    const expected = of(run(plant, plant.start(asStated), 3).events, "inverter");
    const { events, rms } = told(c, [1.4, 1.85, 2.5]);
    const found = of(events, "inverter");
    expect(expected.length).toBeGreaterThan(2);
    expect(found.map(({ name }) => name)).toEqual(expected.map(({ name }) => name));
    found.forEach(({ t }, k) => {
      expect(Math.abs(t - expected[k].t)).toBeLessThan(2 * CYCLE_s);
    });
    expect(Math.abs(rms[1].ampere / 20 - 1)).toBeLessThan(1e-3);
    expect(rms[2].ampere).toBeLessThan(1e-9);
  });
});

describe("a motor started by an inverter at its limit", () => {
  it("throws its start switch and settles as in the envelope (independent code: 2 % of the time, 2e-3 of speed)", () => {
    const source = { ...inverter({ limit_A: 12, continuous_A: 10, surge_s: 10 }), voltage_V: 110 };
    const c = circuit(source, motor("pump", "inverter"));
    const [plant, wave] = [plantOf(c), wavePlantOf(c)];
    const expected = run(plant, plant.start(asStated), 1.5);
    const pace = { method: "runge-kutta", tolerance: 1e-6, maxStep: CYCLE_s / 4 } as const;
    const found = run(wave, wave.start(), 1.5, pace);
    const opens = (events: readonly { name: string; t: number }[]): number =>
      events.find(({ name }) => name.endsWith("start switch opens"))?.t ?? Number.NaN;
    // A stiff source would have it up twice as soon.
    expect(opens(expected.events)).toBeGreaterThan(0.9);
    expect(Math.abs(opens(found.events) / opens(expected.events) - 1)).toBeLessThan(0.02);
    const speed = expected.end.y[plant.layout.places[1].state];
    expect(Math.abs(found.end.y[wave.speedStates[1]] / speed - 1)).toBeLessThan(2e-3);
  });
});
