import type { Cabinet } from "@startgap/cabinet";
import type { StudyFailure } from "../failure.ts";
import type { StudyOptions } from "../options.ts";
import type { Pace } from "../telling.ts";
import type { DipEdges, DipMap, DipOutcome } from "./dipResults.ts";
import { hasSteadySupply, running, type Scene, sceneOf } from "./scene.ts";
import { type Running, tryDip } from "./tryDip.ts";

/** What is left of the voltage, and the lengths, s: a row of interruptions and sags as meters sort them. */
export const LEFT: readonly number[] = [0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9];
export const LENGTHS_s: readonly number[] = [
  0.01, 0.02, 0.03, 0.05, 0.07, 0.1, 0.15, 0.2, 0.3, 0.5, 0.7, 1, 2, 5,
];
/** Halvings of the stretch in which the end changes: from a hundredth of itself to a ten-thousandth. */
const HALVINGS = 12;

export interface DipOptions extends StudyOptions {
  readonly left?: readonly number[];
  readonly lengths_s?: readonly number[];
}

/**
 * Every dip of a grid while everything runs: which devices let go, and whether the restart is together or loaded.
 *
 * The start is told once, heads fill, and every dip branches from there. Where the end changes from one length to
 * the next, the length at which it does is closed in on.
 *
 * @returns the map; null where the supply is no line; or one sentence that says why it could not be finished
 *
 * Limitations: as of the supply's steps and of heads (circuit: supply.ts, head.ts); an alternating-current coil is
 * taken by its rms voltage and its stated lags, not by the instant of the wave at which the dip begins.
 * Checked by packages/study/test/cases/dips.test.ts against the lags and reset times in closed form.
 */
export function dips(cabinet: Cabinet, options: DipOptions = {}): DipMap | StudyFailure | null {
  const scene = sceneOf(cabinet, options);
  if (!hasSteadySupply(scene.circuit)) return null;
  const pace: Pace = { tolerance: options.tolerance ?? 1e-6, signal: options.signal };
  const from = running(scene, pace);
  if ("failed" in from) return from;
  const left = options.left ?? LEFT;
  const lengths = options.lengths_s ?? LENGTHS_s;
  const outcomes: DipOutcome[][] = [];
  const edges: DipEdges[] = [];
  for (const [i, remaining] of left.entries()) {
    const row = rowOf(scene, from, remaining, lengths, pace);
    if ("failed" in row) return row;
    outcomes.push(row.outcomes);
    edges.push({ left: remaining, changes: row.changes });
    options.onProgress?.((i + 1) / left.length);
  }
  return { left, length_s: lengths, outcomes, edges, delay_s: scene.delay_s };
}

interface Row {
  readonly outcomes: DipOutcome[];
  readonly changes: DipEdges["changes"];
}

function rowOf(
  scene: Scene,
  from: Running,
  left: number,
  lengths: readonly number[],
  pace: Pace,
): Row | StudyFailure {
  const outcomes: DipOutcome[] = [];
  const changes: DipEdges["changes"][number][] = [];
  for (const length_s of lengths) {
    const one = tryDip(scene, from, { left, length_s }, pace);
    if ("failed" in one) return one;
    const before = outcomes[outcomes.length - 1];
    outcomes.push(one);
    if (before === undefined || before.end === one.end) continue;
    const at_s = edgeBetween(scene, from, before, one, pace);
    if (typeof at_s !== "number") return at_s;
    changes.push({ at_s, before: before.end, after: one.end });
  }
  return { outcomes, changes };
}

/** The length from which the end is no longer that of the shorter dip. */
function edgeBetween(
  scene: Scene,
  from: Running,
  shorter: DipOutcome,
  longer: DipOutcome,
  pace: Pace,
): number | StudyFailure {
  let [low, high] = [shorter.length_s, longer.length_s];
  for (let count = 0; count < HALVINGS; count++) {
    const middle = (low + high) / 2;
    const one = tryDip(scene, from, { left: shorter.left, length_s: middle }, pace);
    if ("failed" in one) return one;
    if (one.end === shorter.end) low = middle;
    else high = middle;
  }
  return high;
}

/** One dip told by itself; null where the supply is no line. */
export function oneDip(
  cabinet: Cabinet,
  dip: { readonly left: number; readonly length_s: number },
  options: StudyOptions = {},
): DipOutcome | StudyFailure | null {
  const scene = sceneOf(cabinet, options, dip);
  if (!hasSteadySupply(scene.circuit)) return null;
  const pace: Pace = { tolerance: options.tolerance ?? 1e-6, signal: options.signal };
  const from = running(scene, pace);
  return "failed" in from ? from : tryDip(scene, from, dip, pace);
}
