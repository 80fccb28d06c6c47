import { coast } from "./coast.ts";
import { type Follower, follower } from "./follow.ts";
import type { Moved } from "./moved.ts";
import { type Dense, Solver } from "./odex.js";
import { notFinite, type Outcome, tooManySteps } from "./outcome.ts";
import type { Guard, Plant } from "./plant.ts";
import type { ArcSettings } from "./settings.ts";
import { type Solution, watch } from "./watch.ts";

/** Points inside every step at which guards are looked at and the recorder is called. */
const INTERIOR_POINTS = 10;

/** How a smooth stretch ended: at its end, at guards, cancelled, or in failure. */
export interface ArcEnd {
  readonly t: number;
  readonly y: readonly number[];
  readonly guards: readonly Guard[];
  readonly cancelled: boolean;
  readonly failure: Outcome | null;
}

class NotFinite extends Error {
  readonly t: number;
  readonly index: number;
  constructor(t: number, index: number) {
    super("not finite");
    this.t = t;
    this.index = index;
  }
}

/**
 * Integrates one smooth stretch from `t0` until `tEnd` or until a guard passes, whichever comes first.
 *
 * The steps are odex's. Inside each step the guards are looked at on the dense output, which is valid only
 * during the callback; a passage is located there and then and ends the stretch. When the plant has come to
 * rest, its own closed form takes over for the remainder.
 *
 * Assumes a problem that is not stiff: extrapolation is explicit.
 */
export function arc<M>(
  plant: Plant<M>,
  t0: number,
  y0: readonly number[],
  mode: M,
  tEnd: number,
  settings: ArcSettings<M>,
): ArcEnd {
  settings.count.arcs++;
  const dimension = y0.length;
  const guarded = watch(plant, mode, dimension);
  const already = guarded.begin(t0, y0);
  if (already.length > 0) return { t: t0, y: y0, guards: already, cancelled: false, failure: null };
  const follow = follower(guarded.advance, settings, mode, t0, dimension);
  if (tEnd <= t0) return { t: t0, y: y0, guards: [], cancelled: false, failure: null };
  const resting = atRest(plant, t0, y0, mode, settings.tolerance);
  const moved = resting
    ? { t: t0, y: y0, passage: null, rest: true, cancelled: false, failure: null }
    : integrate(plant, t0, y0, mode, tEnd, settings, follow, guarded.guards.length > 0);
  if (!moved.rest) return ended(moved);
  return ended(coast(plant, moved.t, moved.y, mode, tEnd, follow));
}

const ended = (moved: Moved): ArcEnd => ({
  t: moved.t,
  y: moved.y,
  guards: moved.passage?.guards ?? [],
  cancelled: moved.cancelled,
  failure: moved.failure,
});

const atRest = <M>(plant: Plant<M>, t: number, y: readonly number[], mode: M, tolerance: number): boolean =>
  plant.rest?.reached(t, y, mode, tolerance) ?? false;

function integrate<M>(
  plant: Plant<M>,
  t0: number,
  y0: readonly number[],
  mode: M,
  tEnd: number,
  settings: ArcSettings<M>,
  follow: Follower,
  guarded: boolean,
): Moved {
  const dimension = y0.length;
  const { count, recorder } = settings;
  const moved: Moved = { t: t0, y: y0, passage: null, rest: false, cancelled: false, failure: null };
  const rate = new Array<number>(dimension).fill(0);
  const derivative = (t: number, y: number[]): number[] => {
    count.evaluations++;
    plant.derivative(t, y, mode, rate);
    let sum = 0;
    for (let i = 0; i < dimension; i++) sum += rate[i];
    if (sum - sum !== 0)
      throw new NotFinite(
        t,
        rate.findIndex((value) => !Number.isFinite(value)),
      );
    return rate;
  };
  const inside = guarded || recorder?.interior === true;
  const dense = inside || follow.next() <= tEnd;
  const points: number[] = [];
  const onStep = (_: number, tOld: number, t: number, y: number[], read: Dense): boolean | undefined => {
    if (t === tOld) return undefined;
    count.steps++;
    stepPoints(points, tOld, t, inside);
    const solution: Solution = (at, into) => {
      for (let i = 0; i < dimension; i++) into[i] = at === t ? y[i] : read(i, at);
    };
    moved.passage = follow.visit(points, y, solution);
    if (moved.passage === null) {
      moved.t = t;
      moved.y = y;
      moved.cancelled = settings.cancelled(t);
      moved.rest = !moved.cancelled && t < tEnd && atRest(plant, t, y, mode, settings.tolerance);
      return moved.cancelled || moved.rest ? false : undefined;
    }
    const at = new Array<number>(dimension);
    solution(moved.passage.t, at);
    moved.t = moved.passage.t;
    moved.y = at;
    return false;
  };
  try {
    const solver = solverFor(dimension, tEnd - t0, dense, settings);
    const result = solver.solve(derivative, t0, y0, tEnd, onStep);
    if (result.outcome === MAX_STEPS_EXCEEDED) {
      moved.failure = tooManySteps(moved.t, tEnd, result.nStep, fastest(plant, moved, mode));
    } else if (moved.t === t0 && result.outcome === CONVERGED) moved.t = tEnd;
  } catch (error) {
    if (!(error instanceof NotFinite)) throw error;
    moved.failure = notFinite(error.t, plant.stateNames[error.index] ?? "an unnamed state");
  }
  return moved;
}

/** Values of odex's own outcome enumeration. */
const CONVERGED = 0;
const MAX_STEPS_EXCEEDED = 1;

function solverFor<M>(dimension: number, length: number, dense: boolean, settings: ArcSettings<M>): Solver {
  const solver = new Solver(dimension);
  solver.denseOutput = dense;
  solver.relativeTolerance = settings.tolerance;
  solver.absoluteTolerance = settings.tolerance;
  solver.initialStepSize = Math.min(settings.initialStep, length);
  solver.maxStepSize = Math.min(settings.maxStep, length);
  solver.maxSteps = settings.maxSteps;
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
function fastest<M>(plant: Plant<M>, moved: Moved, mode: M): string {
  const y = moved.y.slice();
  const rate = new Array<number>(y.length).fill(0);
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
