import type { Flow, Rest } from "@startgap/ode";
import type { Mode } from "./guardTable.ts";
import type { PartModel } from "./model.ts";
import type { Walk } from "./walk.ts";

/** Accelerations above this are no rest, rad/s^2; saves the closer look. */
export const CLEARLY_MOVING_radps2 = 20;
/** Step along the motion for the closer look, s. */
export const ALONG_s = 1e-3;
/** A motor whose acceleration is this small a part of the largest takes the common rate. */
const FAINT = 1e-3;
const MOST_CORRECTIONS = 12;
/** Of its speed, a second: a motor's acceleration below this is the rounding of two torques that balance. */
const ROUNDING = 1e-11;
/** Tolerances by which the steady speed may lie elsewhere than where a plain exponential would end. */
export const ASTRAY = 10;

/**
 * Rest of a circuit: every motor is so close to its steady speed that the remaining motion is a dying
 * exponential, and each fuse term moves in closed form. An explicit integrator would be held to steps of a
 * motor's mechanical time constant (tens of milliseconds) through seconds in which only fuses still move.
 *
 * With accelerations f, one more evaluation along f gives every motor's own rate
 * lambda_i = -(f_i(omega + h f) - f_i)/(h f_i). The distance still to go is about f_i/lambda_i; when no
 * motor has further to go than a tenth of the square root of the tolerance (relative), corrections
 * f_i/lambda_i are applied until the steady speeds are met to a tenth of the tolerance itself. From there
 *
 *     omega_i(t) = end_i + (omega_i0 - end_i) e^(-lambda_i t)
 *
 * and a fuse or receiver driven by h(t) = h_end + (h_0 - h_end) e^(-lambda t), lambda the slowest, follows exactly.
 * The steady state is met to the tolerance; on the way, for a time of 1/lambda, the speeds are off by the part
 * of that small distance that is not a pure exponential. How large it is shows in the corrections after the
 * first: beyond ten tolerances (two strongly coupled shafts that settle at different rates) it is no rest yet.
 * A direction that grows (lambda <= 0) is no rest.
 *
 * Checked by packages/circuit/test/rest.test.ts against the same story integrated throughout.
 */
export function restOf(
  models: readonly PartModel[],
  speeds: readonly number[],
  derivative: (t: number, y: readonly number[], mode: Mode, rate: number[]) => void,
  solve: (y: readonly number[], mode: Mode) => Walk,
): Rest<Mode> {
  const states = models.reduce((sum, model) => sum + model.stateNames.length, 0);
  const blank = (): number[] => new Array<number>(states).fill(0);
  const [rate, further, moved] = [blank(), blank(), blank()];
  const reach = new Float64Array(speeds.length);
  const flowFrom = flowsOf(models, speeds, solve);

  /** Rates of approach of every motor; null when one grows. */
  const approach = (t: number, y: readonly number[], mode: Mode): number[] | null => {
    for (let i = 0; i < states; i++) moved[i] = y[i];
    for (const i of speeds) moved[i] = y[i] + ALONG_s * rate[i];
    derivative(t, moved, mode, further);
    const common = commonRate(speeds, rate, further);
    const largest = Math.max(...speeds.map((i) => Math.abs(rate[i])));
    const lambda = speeds.map((i) =>
      Math.abs(rate[i]) < FAINT * largest ? common : (rate[i] - further[i]) / (ALONG_s * rate[i]),
    );
    return common > 0 && lambda.every((value) => value > 0) ? lambda : null;
  };

  /** Steady state reached from y by corrections; null when they do not close in. */
  const steady = (
    t: number,
    y: readonly number[],
    mode: Mode,
    lambda: number[],
    tolerance: number,
  ): number[] | null => {
    const end = y.slice();
    for (let count = 0; count < MOST_CORRECTIONS; count++) {
      speeds.forEach((i, k) => {
        end[i] += rate[i] / lambda[k];
      });
      derivative(t, end, mode, rate);
      if (speeds.every((i, k) => Math.abs(rate[i]) <= 0.1 * lambda[k] * tolerance * (1 + Math.abs(end[i]))))
        return end;
    }
    return null;
  };

  return (t0, y0, mode, tolerance) => {
    derivative(t0, y0, mode, rate);
    if (speeds.some((i) => Math.abs(rate[i]) > CLEARLY_MOVING_radps2)) return null;
    if (speeds.every((i) => Math.abs(rate[i]) <= ROUNDING * (1 + Math.abs(y0[i]))))
      return flowFrom(
        t0,
        y0,
        mode,
        y0,
        speeds.map(() => 1),
      );
    const lambda = approach(t0, y0, mode);
    if (lambda === null) return null;
    const near = 0.1 * Math.sqrt(tolerance);
    if (speeds.some((i, k) => Math.abs(rate[i]) > lambda[k] * near * (1 + Math.abs(y0[i])))) return null;
    speeds.forEach((i, k) => {
      reach[k] = rate[i] / lambda[k];
    });
    const end = steady(t0, y0, mode, lambda, tolerance);
    if (end === null) return null;
    const astray = speeds.some(
      (i, k) => Math.abs(end[i] - y0[i] - reach[k]) > ASTRAY * tolerance * (1 + Math.abs(y0[i])),
    );
    return astray ? null : flowFrom(t0, y0, mode, end, lambda);
  };
}

type FlowFrom = (
  t0: number,
  y0: readonly number[],
  mode: Mode,
  end: readonly number[],
  lambda: readonly number[],
) => Flow;

/** Exponentials towards an end: of every followed state by its own rate, of what currents drive by the slowest. */
export function flowsOf(
  models: readonly PartModel[],
  followed: readonly number[],
  solve: (y: readonly number[], mode: Mode) => Walk,
): FlowFrom {
  const driven = models.filter((model) => model.drive !== null);
  return (t0, y0, mode, end, lambda) => {
    const start = y0.slice();
    const before = driven.map((model) => model.drive?.(solve(start, mode), start) ?? 0);
    const after = driven.map((model) => model.drive?.(solve(end, mode), end) ?? 0);
    const slowest = Math.min(...lambda);
    return (t, y) => {
      const dt = t - t0;
      followed.forEach((i, k) => {
        y[i] = end[i] + (start[i] - end[i]) * Math.exp(-lambda[k] * dt);
      });
      driven.forEach((model, k) => {
        model.coast(after[k], before[k] - after[k], slowest, start, dt, y);
      });
    };
  };
}

/** The rate of the motion under way as a whole: -f.(Jf)/(f.f), from the rates at y and at y + h f. */
export function commonRate(
  speeds: readonly number[],
  rate: readonly number[],
  further: readonly number[],
): number {
  let dot = 0;
  let square = 0;
  for (const i of speeds) {
    dot += rate[i] * (further[i] - rate[i]);
    square += rate[i] * rate[i];
  }
  return -dot / (ALONG_s * square);
}
