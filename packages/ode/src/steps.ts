import type { Follower } from "./follow.ts";
import type { Glance } from "./glance.ts";
import { type Moved, standing } from "./moved.ts";
import { type Dense, Solver } from "./odex.js";
import { notFinite, tooManySteps } from "./outcome.ts";
import type { Plant } from "./plant.ts";
import type { ArcSettings } from "./settings.ts";
import type { Solution } from "./watch.ts";

/** Points inside every step at which guards are looked at and the recorder is called. */
const INTERIOR_POINTS = 10;

/** odex's own outcome numbers. */
const CONVERGED = 0;
const MAX_STEPS_EXCEEDED = 1;

/** Takes steps from a standing towards `tEnd`; `visit` is asked after each and ends the stretch with false. */
type Visit = (tOld: number, t: number, y: readonly number[], dense: Dense) => boolean;

class NotFinite extends Error {
  readonly t: number;
  readonly index: number;
  constructor(t: number, index: number) {
    super("not finite");
    this.t = t;
    this.index = index;
  }
}

/** Steps with dense output: every guard, record and snapshot inside each step is served. */
export function closeSteps<M>(
  plant: Plant<M>,
  from: Moved,
  mode: M,
  tEnd: number,
  settings: ArcSettings<M>,
  follow: Follower<M>,
  inside: boolean,
): Moved {
  const moved = standing(from.t, from.y, from.step, from.longest);
  const dimension = from.y.length;
  const points: number[] = [];
  advance(plant, moved, mode, tEnd, settings, true, (tOld, t, y, read) => {
    stepPoints(points, tOld, t, inside);
    const solution: Solution = (at, into) => {
      for (let i = 0; i < dimension; i++) into[i] = at === t ? y[i] : read(i, at);
    };
    moved.passage = follow.visit(points, y, solution);
    if (moved.passage === null) return goesOn(plant, moved, mode, t, y, tEnd, settings);
    const at = new Array<number>(dimension);
    solution(moved.passage.t, at);
    moved.t = moved.passage.t;
    moved.y = at;
    return false;
  });
  return moved;
}

/**
 * Steps without dense output, a third cheaper: only their ends are served. Ends before a step that the
 * glance suspects, and says until when that one deserves a closer look.
 */
export function longSteps<M>(
  plant: Plant<M>,
  from: Moved,
  mode: M,
  tEnd: number,
  settings: ArcSettings<M>,
  look: Glance<M> | null,
): { moved: Moved; suspect: number | null } {
  const moved = standing(from.t, from.y, from.step, from.longest);
  let suspect: number | null = null;
  advance(plant, moved, mode, tEnd, settings, false, (_, t, y) => {
    suspect = look?.suspects(t, y) ?? null;
    if (suspect !== null) return false;
    settings.recorder?.sample(t, y, mode);
    return goesOn(plant, moved, mode, t, y, tEnd, settings);
  });
  return { moved, suspect };
}

/** Notes the step just taken; false when the run is cancelled or the plant has come to rest. */
function goesOn<M>(
  plant: Plant<M>,
  moved: Moved,
  mode: M,
  t: number,
  y: readonly number[],
  tEnd: number,
  settings: ArcSettings<M>,
): boolean {
  moved.t = t;
  moved.y = y;
  moved.cancelled = settings.cancelled(t);
  if (!moved.cancelled && t < tEnd) moved.flow = plant.rest?.(t, y, mode, settings.tolerance) ?? null;
  return !moved.cancelled && moved.flow === null;
}

function advance<M>(
  plant: Plant<M>,
  moved: Moved,
  mode: M,
  tEnd: number,
  settings: ArcSettings<M>,
  dense: boolean,
  visit: Visit,
): void {
  const { count } = settings;
  const t0 = moved.t;
  const rate = moved.y.map(() => 0);
  const dimension = rate.length;
  try {
    const result = solverFor(moved, tEnd - t0, dense, settings).solve(
      (t, y) => {
        count.evaluations++;
        plant.derivative(t, y, mode, rate);
        let sum = 0;
        for (let i = 0; i < dimension; i++) sum += rate[i];
        if (sum - sum !== 0) throw new NotFinite(t, rate.findIndex(isNoNumber));
        return rate;
      },
      t0,
      moved.y,
      tEnd,
      (_, tOld, x, y, read) => {
        if (x === tOld) return undefined;
        const t = landed(x, tEnd);
        count.steps++;
        moved.step = t - tOld;
        return visit(tOld, t, y, read) ? undefined : false;
      },
    );
    if (result.outcome === MAX_STEPS_EXCEEDED) {
      moved.failure = tooManySteps(moved.t, tEnd, result.nStep, sharpest(plant, moved, mode));
    } else if (result.outcome === CONVERGED) moved.t = tEnd;
  } catch (error) {
    if (!(error instanceof NotFinite)) throw error;
    moved.failure = notFinite(error.t, plant.stateNames[error.index] ?? "an unnamed state");
  }
}

const isNoNumber = (value: number): boolean => !Number.isFinite(value);

/** odex adds its last step to the time and may come down beside the end by a unit in the last place. */
const landed = (t: number, tEnd: number): number =>
  Math.abs(t - tEnd) <= 10 * Number.EPSILON * Math.abs(tEnd) ? tEnd : t;

function solverFor<M>(from: Moved, length: number, dense: boolean, settings: ArcSettings<M>): Solver {
  const { tolerance } = settings;
  const solver = new Solver(from.y.length);
  solver.denseOutput = dense;
  solver.relativeTolerance = tolerance;
  solver.absoluteTolerance = tolerance;
  solver.initialStepSize = Math.min(from.step, length);
  solver.maxStepSize = Math.min(settings.maxStep, from.longest, length);
  solver.maxSteps = settings.maxSteps;
  // odex starts at about column 0.6 digits + 1.5; two more leave it room, and its tables grow with the square.
  solver.maxExtrapolationColumns = Math.min(9, Math.max(4, Math.ceil(1.5 - 0.6 * Math.log10(tolerance)) + 2));
  return solver;
}

function stepPoints(points: number[], tOld: number, t: number, inside: boolean): void {
  points.length = 0;
  if (inside) {
    for (let j = 1; j <= INTERIOR_POINTS; j++) points.push(tOld + ((t - tOld) * j) / (INTERIOR_POINTS + 1));
  }
  points.push(t);
}

/** The state whose own rate answers most sharply to it: the one to name when steps run out. */
function sharpest<M>(plant: Plant<M>, moved: Moved, mode: M): string {
  const y = moved.y.slice();
  const rate = y.map(() => 0);
  const sharpness = y.map((value, i) => {
    plant.derivative(moved.t, y, mode, rate);
    const before = rate[i];
    const step = 1e-6 * (1 + Math.abs(value));
    y[i] = value + step;
    plant.derivative(moved.t, y, mode, rate);
    y[i] = value;
    return Math.abs(rate[i] - before) / step;
  });
  return plant.stateNames[sharpness.indexOf(Math.max(...sharpness))] ?? "an unnamed state";
}
