/** Test data: waves in closed form, for pictures only. */

import type { ClampReading, InrushStudy, WaveColumn, WaveStudy } from "@startgap/study";
import { ordinary, type Setup } from "./stories.ts";

const HZ = 60;
const STEP_s = 1 / (128 * HZ);
const START_s = 0.05;
const END_s = 0.45;

const times = (end_s: number): Float64Array =>
  Float64Array.from({ length: Math.round(end_s / STEP_s) + 1 }, (_, k) => k * STEP_s);

/** Amplitude after a start at START_s: high, then falling off. */
const rising = (t: number, rest: number, start: number): number =>
  t < START_s ? rest : rest + (start - rest) / (1 + Math.exp((t - 0.3) * 40));

function columns(part: string, volts: (t: number) => number, amperes: (t: number) => number): WaveColumn[] {
  const time_s = times(END_s);
  const column = (
    quantity: WaveColumn["quantity"],
    unit: "V" | "A",
    of: (t: number) => number,
  ): WaveColumn => ({
    quantity,
    part,
    unit,
    values: time_s.map(of),
  });
  const wave = (rms: (t: number) => number, offset: number) => (t: number) => {
    const aged = t < START_s ? 0 : Math.exp(-(t - START_s) / 0.012);
    return Math.SQRT2 * rms(t) * (Math.cos(2 * Math.PI * HZ * t) - offset * aged);
  };
  return [
    column("voltage", "V", wave(volts, 0)),
    column("rms voltage", "V", volts),
    column("current", "A", wave(amperes, 0.6)),
    column("rms current", "A", amperes),
  ];
}

const reading = (part: string): ClampReading => ({
  part,
  from_s: START_s,
  window_s: 0.1,
  rms_A: 58,
  peak_A: 131,
});

export function exampleWave(setup: Partial<Setup> = {}): WaveStudy {
  const { motors, fuse, title } = { ...ordinary, ...setup };
  const sag = (nominal: number) => (t: number) => (t < START_s ? nominal : nominal - 0.4 * rising(t, 3, 62));
  return {
    startgap: "wave 1",
    title,
    case: "one",
    delay_s: 0,
    frequency_Hz: HZ,
    angle_deg: 0,
    angles: [],
    from_s: 0,
    to_s: END_s,
    line: reading(fuse),
    motors: motors.map((part) => ({ clamp: reading(part), firstPeakAsymmetry: 1.48 })),
    fuses: [{ part: fuse, from_s: START_s, time_s: 0.1, i2t_A2s: 420, melting_A2s: 9000 }],
    agreement: { rms: 0.004, worst: null, firstCycles: 0.2, runUp: 0.003, melt: 0.001 },
    leftOut: [],
    events: [
      { at_s: START_s, part: motors[0], what: "breaks away" },
      { at_s: 0.31, part: motors[0], what: "start switch opens" },
      { at_s: 0.314, part: motors[0], what: "auxiliary current passes zero" },
      ...motors.slice(1).map((part) => ({ at_s: 0.4, part, what: "is connected" })),
    ],
    traces: {
      time_s: times(END_s),
      columns: [
        ...columns(fuse, sag(240), (t) => rising(t, 2, 60)),
        ...motors.flatMap((part) => columns(part, sag(120), (t) => rising(t, 0, 58))),
      ],
    },
  };
}

export function exampleInrush(setup: Partial<Setup> = {}): InrushStudy {
  const { fuse } = { ...ordinary, ...setup };
  const time_s = times(0.25);
  const pulse = (t: number): number =>
    190 * Math.exp(-t / 0.06) * Math.max(0, Math.cos(2 * Math.PI * HZ * (t - 0.008)) - 0.3);
  const worst = { loads: true, angle_deg: 90, residual: -0.7, peak_A: 117, firstCycle_A: 41, melt: [] };
  return {
    tried: [worst],
    worst,
    traces: { time_s, columns: [{ quantity: "current", part: fuse, unit: "A", values: time_s.map(pulse) }] },
    frequency_Hz: HZ,
    harmonics_A: [29, 48, 31, 14, 3, 3.4, 3, 0.8, 1.1, 1.2],
    afterRepeats: [0.06, 0.12, 0.18],
    finding: {
      finding: "switch-on",
      part: fuse,
      outcome: "pass",
      value: 0.06,
      limit: 0.64,
      basis: "common practice, no source",
      says: "",
    },
  };
}
