import type { Cabinet } from "@startgap/cabinet";
import { type Circuit, type CircuitPlant, type Mode, plantOf, type Script } from "@startgap/circuit";
import { type Recorder, run, type Standing } from "@startgap/ode";
import { failureOf, type StudyFailure } from "../failure.ts";
import type { StudyOptions } from "../options.ts";
import { delayFor, scriptFor, staggerOf } from "../stagger.ts";
import { durationOf } from "../telling.ts";

/** The cabinet without a failure, and how it stands when everything runs. */
export interface Sound {
  readonly circuit: Circuit;
  readonly plant: CircuitPlant;
  readonly script: Script;
  readonly running: Standing<Mode>;
  /** How long after switching on everything that starts has started. */
  readonly start_s: number;
  readonly tolerance: number;
  readonly signal?: { readonly aborted: boolean };
}

/**
 * The cabinet as it is meant to be run, from switching on until everything that starts has settled.
 *
 * @param recorderFor sees the story, where anybody wants to
 */
export function soundOf(
  cabinet: Cabinet,
  options: StudyOptions,
  recorderFor?: (plant: CircuitPlant) => Recorder<Mode>,
): Sound | StudyFailure {
  const { circuit } = cabinet;
  const stagger = staggerOf(circuit);
  const delay_s = delayFor(stagger, options.delay_s);
  const script = scriptFor(stagger, delay_s);
  const start_s = durationOf(stagger, delay_s, options.duration_s);
  const tolerance = options.tolerance ?? 1e-6;
  const plant = plantOf(circuit);
  const { outcome, end } = run(plant, plant.start(script), start_s, {
    tolerance,
    maxEvents: 8000,
    recorder: recorderFor?.(plant),
    signal: options.signal,
  });
  return (
    failureOf(outcome) ?? { circuit, plant, script, running: end, start_s, tolerance, signal: options.signal }
  );
}
