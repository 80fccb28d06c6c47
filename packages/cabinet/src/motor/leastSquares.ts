import { solveCholesky } from "./cholesky.ts";

export type Residuals = (x: readonly number[]) => readonly number[];

/**
 * The residuals near a point. What is costly and stationary there (the slip of the greatest torque, say)
 * is found once for the point, and may be held while derivatives are taken about it.
 */
export type ResidualsNear = (x: readonly number[]) => Residuals;

export interface LeastSquaresResult {
  readonly x: readonly number[];
  readonly residuals: readonly number[];
  /** Half the sum of squares. */
  readonly cost: number;
  readonly iterations: number;
  readonly outcome: "settled" | "cannot improve" | "out of iterations";
}

export interface LeastSquaresOptions {
  /** Most accepted or refused steps. */
  readonly iterations: number;
  /** Settled when a step lowers the cost by less than this fraction of it. */
  readonly relativeGain: number;
  /** Step of the forward differences, in the unit of x. */
  readonly difference: number;
}

const DEFAULTS: LeastSquaresOptions = { iterations: 60, relativeGain: 1e-4, difference: 1e-6 };

/** Damping at the start, and where a step is given up. */
const FIRST_DAMPING = 1;
const MOST_DAMPING = 1e10;

interface Point {
  readonly x: readonly number[];
  readonly near: Residuals;
  readonly r: readonly number[];
  readonly cost: number;
}

/**
 * Least squares by damped Gauss-Newton steps: (J^T J + lambda) d = -J^T r.
 *
 * A step that lowers the sum of squares is kept and the damping falls tenfold; one that does not, or
 * leads where the residuals are not finite, is refused and the damping rises tenfold. J by forward
 * differences. Deterministic. The unknowns are to be of one scale, about 1, for the damping treats them alike.
 *
 * @param problem residuals near a point; as many of them as unknowns or more
 * @param start finite, and the residuals finite there
 * @throws RangeError when the residuals at the start are not finite
 *
 * Limitation: finds a minimum near the start, not the least of several.
 * Source: Levenberg, Q. Appl. Math. 2 (1944) 164; Nocedal & Wright, Numerical Optimization, 2nd ed., 10.3.
 * Checked by packages/cabinet/test/motor-least-squares.test.ts.
 */
export function leastSquares(
  problem: ResidualsNear,
  start: readonly number[],
  options: Partial<LeastSquaresOptions> = {},
): LeastSquaresResult {
  const settings = { ...DEFAULTS, ...options };
  let point = pointAt(problem, start);
  if (!Number.isFinite(point.cost)) throw new RangeError("invalid start: the residuals are not finite there");
  let damping = FIRST_DAMPING;
  let normal = normalEquations(point, settings.difference);
  for (let iteration = 1; iteration <= settings.iterations; iteration++) {
    const trial = step(problem, point, normal, damping);
    if (trial === null) {
      damping *= 10;
      if (damping > MOST_DAMPING) return result(point, iteration, "cannot improve");
      continue;
    }
    const gain = point.cost - trial.cost;
    const settled = gain <= settings.relativeGain * point.cost;
    point = trial;
    if (settled) return result(point, iteration, "settled");
    damping /= 10;
    normal = normalEquations(point, settings.difference);
  }
  return result(point, settings.iterations, "out of iterations");
}

function pointAt(problem: ResidualsNear, x: readonly number[]): Point {
  const near = problem(x);
  const r = near(x);
  let cost = 0;
  for (const value of r) cost += value * value;
  return { x, near, r, cost: cost / 2 };
}

interface NormalEquations {
  readonly A: readonly number[][];
  readonly g: readonly number[];
}

/** J^T J and J^T r. */
function normalEquations(point: Point, h: number): NormalEquations {
  const columns = point.x.map((value, k) => {
    const moved = point.x.slice();
    moved[k] = value + h;
    const span = moved[k] - value;
    return point.near(moved).map((r, i) => (r - point.r[i]) / span);
  });
  const dot = (p: readonly number[], q: readonly number[]): number =>
    p.reduce((sum, v, i) => sum + v * q[i], 0);
  return {
    A: columns.map((p) => columns.map((q) => dot(p, q))),
    g: columns.map((p) => dot(p, point.r)),
  };
}

/** A better point one damped step away, or null. */
function step(problem: ResidualsNear, from: Point, { A, g }: NormalEquations, damping: number): Point | null {
  const damped = A.map((row, i) => row.map((value, j) => (i === j ? value + damping : value)));
  const d = solveCholesky(damped, g);
  if (d === null) return null;
  const trial = pointAt(
    problem,
    from.x.map((value, k) => value - d[k]),
  );
  return trial.cost < from.cost ? trial : null;
}

function result(
  point: Point,
  iterations: number,
  outcome: LeastSquaresResult["outcome"],
): LeastSquaresResult {
  return { x: point.x, residuals: point.r, cost: point.cost, iterations, outcome };
}
