import { doubles } from "./doubles.ts";
import { extrapolation } from "./extrapolation.ts";
import type { Follower } from "./follow.ts";
import type { Glance } from "./glance.ts";
import type { Integrator, Pace, Rates, Visit } from "./march.ts";
import { type Moved, standing } from "./moved.ts";
import { notFinite, tooManySteps } from "./outcome.ts";
import type { Plant } from "./plant.ts";
import { rungeKutta } from "./rungeKutta.ts";
import type { ArcSettings, Counts, Method } from "./settings.ts";

/** Points inside a step at which guards are looked at and the recorder is called. */
const INTERIOR_POINTS = 10;
/** Of a plant that states its longest step, no more of them than this in one: a shorter step needs fewer. */
const POINTS_IN_LONGEST = 20;

const INTEGRATORS: Readonly<Record<Method, Integrator>> = { extrapolation, "runge-kutta": rungeKutta };

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
  const recorded = settings.recorder?.interior === true;
  advance(plant, moved, mode, tEnd, settings, true, (tOld, t, y, solution) => {
    const inner = inside ? innerPoints(t - tOld, settings.maxStep) : 0;
    const seen = inner > 0 && !recorded && follow.covers(tOld, t, (t - tOld) / (inner + 1));
    stepPoints(points, tOld, t, seen ? 0 : inner);
    moved.passage = follow.visit(points, y, solution, seen);
    if (moved.passage === null) return goesOn(plant, moved, mode, t, y, tEnd, settings);
    const at = doubles(dimension);
    solution(moved.passage.t, at);
    moved.t = moved.passage.t;
    moved.y = at;
    return false;
  });
  return moved;
}

/**
 * Steps without dense output, a third cheaper: only their ends are served. Ends before a step that the
 * glance suspects or knows to be due, and says until when a closer look is deserved.
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
    if (!goesOn(plant, moved, mode, t, y, tEnd, settings)) return false;
    suspect = look?.due() ?? null;
    return suspect === null;
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
  const { count, tolerance, maxSteps } = settings;
  const { t: t0, y: y0, longest } = moved;
  const pace: Pace = {
    tolerance,
    firstStep: moved.step,
    longest: Math.min(settings.maxStep, longest, tEnd - t0),
    maxSteps,
    dense,
  };
  const integrate = INTEGRATORS[settings.method];
  try {
    const march = integrate(checked(plant, mode, count), t0, y0, tEnd, pace, (tOld, t, y, solution) => {
      count.steps++;
      moved.step = t - tOld;
      return visit(tOld, t, y, solution);
    });
    if (march.ending === "too many steps") {
      moved.failure = tooManySteps(moved.t, tEnd, march.tries, sharpest(plant, moved, mode));
    } else if (march.ending === "arrived") moved.t = tEnd;
  } catch (error) {
    if (!(error instanceof NotFinite)) throw error;
    moved.failure = notFinite(error.t, plant.stateNames[error.index] ?? "an unnamed state");
  }
}

/** The plant's rates, counted, and refused where one is not finite. */
function checked<M>(plant: Plant<M>, mode: M, count: Counts): Rates {
  return (t, y, rate) => {
    count.evaluations++;
    plant.derivative(t, y, mode, rate);
    let sum = 0;
    for (let i = 0; i < rate.length; i++) sum += rate[i];
    if (sum - sum !== 0) throw new NotFinite(t, rate.findIndex(isNoNumber));
  };
}

const isNoNumber = (value: number): boolean => !Number.isFinite(value);

const innerPoints = (step: number, longest: number): number =>
  Number.isFinite(longest)
    ? Math.min(INTERIOR_POINTS, Math.ceil((POINTS_IN_LONGEST * step) / longest))
    : INTERIOR_POINTS;

function stepPoints(points: number[], tOld: number, t: number, inner: number): void {
  points.length = 0;
  for (let j = 1; j <= inner; j++) points.push(tOld + ((t - tOld) * j) / (inner + 1));
  points.push(t);
}

/** The state whose own rate answers most sharply to it: the one to name when steps run out. */
function sharpest<M>(plant: Plant<M>, moved: Moved, mode: M): string {
  const y = moved.y.slice();
  const rate = doubles(y.length);
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
