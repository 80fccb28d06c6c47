import type { Cabinet } from "@startgap/cabinet";
import type { StudyFailure } from "../failure.ts";
import type { StudyOptions } from "../options.ts";
import type { Pace } from "../telling.ts";
import type { Skipped } from "./caseStory.ts";
import { mapChanges } from "./dipAdvice.ts";
import type { DipMap, DipOutcome, NoDips } from "./dipResults.ts";
import { type DipRow, type Ground, refinedRows, rowOf } from "./dipRows.ts";
import { NO_LINE } from "./lowLine.ts";
import { checkDip, type Dip, hasSteadySupply, type Running, running, type Scene, sceneOf } from "./scene.ts";
import { tryDip } from "./tryDip.ts";

/** What is left of the voltage, and the lengths, s: a row of interruptions and sags as meters sort them. */
const LEFT: readonly number[] = [0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9];
const LENGTHS_s: readonly number[] = [0.01, 0.02, 0.03, 0.05, 0.07, 0.1, 0.15, 0.2, 0.3, 0.5, 0.7, 1, 2, 5];

export interface DipOptions extends StudyOptions {
  /** Fractions of nominal voltage that are left, from 0 to below 1; a grid of tenths when silent. */
  readonly left?: readonly number[];
  /** Lengths of the dips, from above 0 to an hour; from 10 ms to 5 s when silent. */
  readonly lengths_s?: readonly number[];
}

/**
 * Every dip of a grid while everything runs: which devices let go, and whether the restart is together or loaded.
 *
 * The start is told once, heads fill, and every dip branches from there. Where the end changes from one length to
 * the next, or from one depth to the next, the edge is closed in on.
 *
 * @returns the map; why there is none; or one sentence that says why it could not be finished
 * @throws RangeError for a depth or a length that is none
 *
 * Limitations: as of the supply's steps and of heads (circuit: supply.ts, head.ts); an alternating-current coil is
 * taken by its rms voltage and its stated lags, not by the instant of the wave at which the dip begins.
 * Checked by packages/study/test/cases/dips.test.ts against the lags and reset times in closed form.
 */
export function dips(cabinet: Cabinet, options: DipOptions = {}): DipMap | NoDips | StudyFailure {
  const left = ascending(options.left ?? LEFT);
  const lengths_s = ascending(options.lengths_s ?? LENGTHS_s);
  for (const one of left) for (const length_s of lengths_s) checkDip({ left: one, length_s });
  const scene = sceneOf(cabinet, options);
  const head = { startgap: "dips 1", title: cabinet.title } as const;
  const from = before(scene, options);
  if ("failed" in from) return from;
  if ("skipped" in from) return { ...head, ...from };
  const ground: Ground = { scene, from, lengths_s, pace: paceOf(options) };
  const rows: DipRow[] = [];
  for (const [i, remaining] of left.entries()) {
    const row = rowOf(ground, remaining);
    if ("failed" in row) return row;
    rows.push(row);
    options.onProgress?.((i + 1) / (left.length + 1));
  }
  const edges = refinedRows(ground, rows);
  if ("failed" in edges) return edges;
  options.onProgress?.(1);
  const outcomes = rows.map((row) => row.outcomes);
  const changes = mapChanges(scene, outcomes.flat());
  return { ...head, left, length_s: lengths_s, outcomes, edges, delay_s: scene.delay_s, changes };
}

/** One dip told by itself; why there is none; or one sentence that says why it could not be finished. */
export function oneDip(
  cabinet: Cabinet,
  dip: Dip,
  options: StudyOptions = {},
): DipOutcome | NoDips | StudyFailure {
  const scene = sceneOf(cabinet, options, { dip });
  const from = before(scene, options);
  if ("failed" in from) return from;
  if ("skipped" in from) return { startgap: "dips 1", title: cabinet.title, ...from };
  return tryDip(scene, from, dip, paceOf(options));
}

const ascending = (values: readonly number[]): number[] => [...new Set(values)].sort((a, b) => a - b);

const paceOf = ({ tolerance = 1e-6, signal }: StudyOptions): Pace => ({ tolerance, signal });

/** Everything running. */
function before(scene: Scene, options: StudyOptions): Running | Skipped | StudyFailure {
  if (scene.stagger.motors.length === 0) return { skipped: "There is no motor." };
  return hasSteadySupply(scene.circuit) ? running(scene, paceOf(options)) : { skipped: NO_LINE };
}
