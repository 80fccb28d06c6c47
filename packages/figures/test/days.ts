/** Test data: a day in closed form, for pictures only. */

import type { DayColumn, DayMotor, DayReport } from "@startgap/study";
import { ordinary, type Setup } from "./stories.ts";

const DAY_s = 86_400;
const CYCLE_s = 1200;
const ROWS = DAY_s / 300;

const cosine = (t: number, low: number, high: number): number =>
  (low + high) / 2 + ((high - low) / 2) * Math.cos((2 * Math.PI * (t - 54_000)) / DAY_s);

/** On for the first half of every cycle, later motors a little later. */
const runs = (t: number, k: number): number => ((t + CYCLE_s - 30 * k) % CYCLE_s < CYCLE_s / 2 ? 1 : 0);

const motorOf = (part: string, k: number): DayMotor => ({
  ...{ part, starts: DAY_s / CYCLE_s, failed: 0, running_s: DAY_s / 2 },
  ...{ mostInAnHour: { value: 3, at_s: 0 }, shortestRest_s: 600, allowed: { perHour: 25, rest_s: 38 } },
  ...{ fills: null, startWinding: null, hottest: { value: 95 + k, at_s: 54_000 }, limit_C: 120 },
});

export function exampleDay(setup: Partial<Setup> = {}): DayReport {
  const { motors, fuse, title } = { ...ordinary, ...setup };
  const time_s = Float64Array.from({ length: ROWS + 1 }, (_, k) => 300 * k);
  const column = (
    quantity: DayColumn["quantity"],
    part: string,
    unit: DayColumn["unit"],
    of: (t: number) => number,
  ): DayColumn => ({ quantity, part, unit, values: time_s.map(of) });
  const saw = (t: number): number => Math.abs(((t / CYCLE_s) % 1) - 0.5);
  const starts = Array.from({ length: DAY_s / CYCLE_s }, (_, k) => k * CYCLE_s).flatMap((t) =>
    motors.map((_, motor) => ({ t: t + 30 * motor, motor })),
  );
  const each = (of: (start: { t: number; motor: number }) => number): Float64Array =>
    Float64Array.from(starts, of);
  const melts = (t: number, motor: number): number => (0.2 + 0.1 * motor) * (1 + cosine(t, 0, 0.4));
  const says = `${fuse}: the start at 15:00 brings it 42 % of the way to melting in air of 52 degC, the mildest 30 % at 30 degC.`;
  return {
    ...{ startgap: "day 1", title, season: "summer", hours: 24, demand: "as stated", ended: "Reached 24 h." },
    motors: motors.map(motorOf),
    transformers: [
      {
        part: "transformer",
        winding: { value: 120, at_s: 54_000 },
        core: { value: 110, at_s: 54_000 },
        insulation_C: 180,
      },
    ],
    fuses: [{ part: fuse, worst: null, mildest: null, melted_s: 79_000 }],
    receivers: [],
    box: null,
    energy: {
      ...{ supply_J: 1, lost_J: 1, shaft_J: 0, kinetic_J: 0 },
      motors: { lost_J: 1, shed_J: 1, stored_J: 0 },
      box: { lost_J: 1, shed_J: 1, stored_J: 0 },
    },
    starts: {
      time_s: each(({ t }) => t),
      motor: each(({ motor }) => motor),
      runUp_s: each(() => 0.5),
      startWinding_s: each(() => 0.4),
      energy_J: each(() => 2500),
      air_C: each(({ t }) => cosine(t, 30, 52)),
      melt: [{ part: fuse, values: each(({ t, motor }) => melts(t, motor)) }],
    },
    traces: {
      time_s,
      columns: [
        column("temperature outside", "air", "degC", (t) => cosine(t, 20, 38)),
        column("temperature", "enclosure", "degC", (t) => cosine(t, 30, 52)),
        ...motors.map((part, k) =>
          column("pressure", `tank ${k + 1} of ${part}`, "kPa", (t) => 860 - 400 * saw(t)),
        ),
        ...motors.map((part, k) => column("running", part, "", (t) => runs(t, k))),
        ...motors.map((part, k) =>
          column("winding temperature", part, "degC", (t) => cosine(t, 80, 95) + k + 10 * saw(t)),
        ),
        column("winding temperature", "transformer", "degC", (t) => cosine(t, 100, 120)),
        column("melting current", fuse, "", (t) => 1 - cosine(t, 0.02, 0.12)),
      ],
    },
    findings: [
      {
        ...{ finding: "fuse over the day", part: fuse, outcome: "pass", gravity: "stops work" },
        ...{ value: 1.5, limit: 1.25, unit: "", basis: "test data", says, change: null },
      },
    ],
    notes: [],
  };
}
