import type { WaveSamples } from "./samples.ts";

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
