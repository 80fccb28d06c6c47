import { doubles } from "./doubles.ts";
import type { March, Pace, Rates, Visit } from "./march.ts";
import { type Dense, Solver } from "./odex.js";
import type { Solution } from "./watch.ts";

/** odex's own outcome numbers. */
const CONVERGED = 0;
const MAX_STEPS_EXCEEDED = 1;

/** The step that is being visited. */
interface Step {
  t: number;
  y: readonly number[];
  read: Dense | null;
}

/** Extrapolation of the midpoint rule by odex: long steps of high order, for long smooth stretches. */
export function extrapolation(
  rates: Rates,
  t0: number,
  y0: readonly number[],
  tEnd: number,
  pace: Pace,
  visit: Visit,
): March {
  const rate = doubles(y0.length);
  const step: Step = { t: t0, y: y0, read: null };
  const solution: Solution = (at, into) => {
    const { t, y, read } = step;
    for (let i = 0; i < y.length; i++) into[i] = at === t || read === null ? y[i] : read(i, at);
  };
  const { outcome, nStep } = solverFor(y0.length, tEnd - t0, pace).solve(
    (t, y) => {
      rates(t, y, rate);
      return rate;
    },
    t0,
    y0,
    tEnd,
    (_, tOld, x, y, read) => {
      if (x === tOld) return undefined;
      step.t = landed(x, tEnd);
      step.y = y;
      step.read = read;
      return visit(tOld, step.t, y, solution) ? undefined : false;
    },
  );
  if (outcome === MAX_STEPS_EXCEEDED) return { ending: "too many steps", tries: nStep };
  return { ending: outcome === CONVERGED ? "arrived" : "left", tries: nStep };
}

/** odex adds its last step to the time and may come down beside the end by a unit in the last place. */
const landed = (t: number, tEnd: number): number =>
  Math.abs(t - tEnd) <= 10 * Number.EPSILON * Math.abs(tEnd) ? tEnd : t;

function solverFor(dimension: number, length: number, pace: Pace): Solver {
  const { tolerance } = pace;
  const solver = new Solver(dimension);
  solver.denseOutput = pace.dense;
  solver.relativeTolerance = tolerance;
  solver.absoluteTolerance = tolerance;
  solver.initialStepSize = Math.min(pace.firstStep, length);
  solver.maxStepSize = Math.min(pace.longest, length);
  solver.maxSteps = pace.maxSteps;
  // odex starts at about column 0.6 digits + 1.5; two more leave it room, and its tables grow with the square.
  solver.maxExtrapolationColumns = Math.min(9, Math.max(4, Math.ceil(1.5 - 0.6 * Math.log10(tolerance)) + 2));
  return solver;
}
