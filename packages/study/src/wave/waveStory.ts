import { type Circuit, type Mode, type WavePlant, type WaveStart, wavePlantOf } from "@startgap/circuit";
import { type Event, type Outcome, run } from "@startgap/ode";
import { failureOf, type StudyFailure } from "../failure.ts";
import type { StudyOptions } from "../options.ts";
import { sampler, type WaveSamples } from "./samples.ts";

/** A waveform story as it was run. */
export interface WaveTelling {
  readonly plant: WavePlant;
  readonly samples: WaveSamples;
  readonly events: readonly Event[];
  readonly outcome: Outcome;
  readonly end: { readonly y: readonly number[]; readonly mode: Mode };
}

export interface WaveWindow {
  readonly from_s: number;
  readonly to_s: number;
}

/** Relative and absolute tolerance of a waveform story: no current is then off by more than 2e-4 of the line's highest. */
const TOLERANCE = 1e-5;
/** More steps than any cycle of any story takes: the arcs of a waveform are long. */
const MOST_STEPS_a_cycle = 400;
/** Longest step in cycles: no half-wave may pass unseen between the guards' points. */
const LONGEST_STEP_cycles = 0.25;
const MOST_EVENTS = 20_000;

/** Runs a circuit in the waveform resolution up to the end of the window and keeps the samples of it. */
export function tellWave(
  circuit: Circuit,
  how: WaveStart,
  window: WaveWindow,
  options: Pick<StudyOptions, "tolerance" | "signal" | "onProgress"> = {},
): WaveTelling | StudyFailure {
  const plant = wavePlantOf(circuit);
  const { samples, times, take } = sampler(plant, window.from_s, window.to_s);
  const cycle_s = 1 / plant.layout.places[0].frequency_Hz;
  const { outcome, events, end } = run(plant, plant.start(how), window.to_s, {
    method: "runge-kutta",
    tolerance: options.tolerance ?? TOLERANCE,
    maxStep: LONGEST_STEP_cycles * cycle_s,
    initialStep: 1e-3,
    maxEvents: MOST_EVENTS,
    maxSteps: MOST_STEPS_a_cycle * (1 + Math.ceil(window.to_s / cycle_s)),
    signal: options.signal,
    onProgress: (t) => options.onProgress?.(t / window.to_s),
    snapshots: times,
    onSnapshot: take,
  });
  return failureOf(outcome) ?? { plant, samples, events, outcome, end };
}
