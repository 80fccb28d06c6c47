import { meltingCurrent_A } from "@startgap/circuit";
import { SAMPLES_A_CYCLE, type WaveSamples } from "./samples.ts";

/** What a clamp meter with an inrush function shows of one start. */
export interface ClampReading {
  readonly part: string;
  /** When the meter triggers: the current first exceeds `trigger_A`; null when it never does. */
  readonly from_s: number | null;
  readonly window_s: number;
  readonly rms_A: number;
  readonly peak_A: number;
}

/** Window and trigger level of a common clamp meter's inrush function (common practice, no source). */
export const CLAMP = { window_s: 0.1, trigger_A: 10 };

/** Rms and highest instantaneous current over the window after the trigger. */
export function clampReading(samples: WaveSamples, part: number, window_s = CLAMP.window_s): ClampReading {
  const name = samples.plant.layout.circuit.parts[part].name;
  const read = (row: number): number => samples.current(part, row);
  let first = 0;
  while (first < samples.rows && Math.abs(read(first)) < CLAMP.trigger_A) first++;
  if (first === samples.rows) return { part: name, from_s: null, window_s, rms_A: 0, peak_A: 0 };
  const count = Math.min(samples.rows - first, Math.max(1, Math.round(window_s / samples.step_s)));
  let sum = 0;
  let peak = 0;
  for (let k = 0; k < count; k++) {
    sum += read(first + k) ** 2;
    peak = Math.max(peak, Math.abs(read(first + k)));
  }
  return { part: name, from_s: samples.time_s(first), window_s, rms_A: Math.sqrt(sum / count), peak_A: peak };
}

/**
 * First-peak asymmetry: the highest instantaneous current of the first cycle over the peak of the symmetrical
 * current that follows (sqrt(2) times the rms of the third cycle). 1 for a symmetrical start.
 */
export function firstPeakAsymmetry(
  samples: WaveSamples,
  part: number,
  from: number,
  cycle: number,
): number | null {
  if (from < 0 || from + 3 * cycle > samples.rows) return null;
  let first = 0;
  for (let k = 0; k < cycle; k++) first = Math.max(first, Math.abs(samples.current(part, from + k)));
  let sum = 0;
  for (let k = 2 * cycle; k < 3 * cycle; k++) sum += samples.current(part, from + k) ** 2;
  const symmetrical = Math.sqrt((2 * sum) / cycle);
  return symmetrical > 0 ? first / symmetrical : null;
}

/** Integral of i^2 from a row on, A^2 s, over a number of rows (trapezoid). */
export function i2t_A2s(samples: WaveSamples, part: number, from: number, rows: number): number {
  let sum = 0;
  for (let k = 1; k <= rows && from + k < samples.rows; k++) {
    sum += (samples.current(part, from + k) ** 2 + samples.current(part, from + k - 1) ** 2) / 2;
  }
  return sum * samples.step_s;
}

export interface MotorStartReading {
  readonly clamp: ClampReading;
  /** Highest instantaneous current of the first cycle over the symmetrical peak; null outside the window. */
  readonly firstPeakAsymmetry: number | null;
}

export function motorReadings(samples: WaveSamples, window_s?: number): MotorStartReading[] {
  return samples.plant.layout.circuit.parts.flatMap((p, part) => {
    if (p.is !== "motor") return [];
    const first = firstFlow(samples, part);
    return [
      {
        clamp: clampReading(samples, part, window_s),
        firstPeakAsymmetry: firstPeakAsymmetry(samples, part, first, SAMPLES_A_CYCLE),
      },
    ];
  });
}

/** First row in which the part carries current; -1 when none does or it did before the window. */
function firstFlow(samples: WaveSamples, part: number): number {
  if (samples.rows === 0 || samples.current(part, 0) !== 0) return samples.time_s(0) <= 0 ? 0 : -1;
  for (let row = 0; row < samples.rows; row++) if (samples.current(part, row) !== 0) return row;
  return -1;
}

/** What the heaviest cycles of a window put into a fuse, against what melts it in that time. */
export interface FirstCycles {
  readonly part: string;
  /** When they begin. */
  readonly from_s: number;
  readonly time_s: number;
  readonly i2t_A2s: number;
  readonly melting_A2s: number;
}

/** The first cycles of a start: six, a tenth of a second at 60 Hz. */
const FIRST_CYCLES = 6;

export function firstCycles(samples: WaveSamples): FirstCycles[] {
  const rows = Math.min(FIRST_CYCLES * SAMPLES_A_CYCLE, samples.rows - 1);
  return samples.plant.layout.circuit.parts.flatMap((p, part) => {
    if (p.is !== "fuse" || p.melt === null || rows <= 0) return [];
    const time_s = rows * samples.step_s;
    const from = heaviest(samples, part, rows);
    const melting_A2s = meltingCurrent_A(p.melt, time_s) ** 2 * time_s;
    const i2t = i2t_A2s(samples, part, from, rows);
    return [{ part: p.name, from_s: samples.time_s(from), time_s, i2t_A2s: i2t, melting_A2s }];
  });
}

/** The row from which so many rows hold the most i^2. */
function heaviest(samples: WaveSamples, part: number, rows: number): number {
  let sum = 0;
  let [most, from] = [-1, 0];
  for (let row = 0; row < samples.rows; row++) {
    sum += samples.current(part, row) ** 2;
    if (row > rows) sum -= samples.current(part, row - rows - 1) ** 2;
    if (row < rows || sum <= most * (1 + 1e-9)) continue;
    most = sum;
    from = row - rows;
  }
  return from;
}
