/** For how long a current was exceeded: what a time-current plot can lay a start on. */

/** A point of a time-current plot. */
export interface CurvePoint {
  readonly current_A: number;
  readonly time_s: number;
}

/**
 * For levels from the highest current of a trace down, the total time during which it flowed or was exceeded.
 *
 * Time is counted over the whole trace, however often the level was crossed; between samples the current is straight.
 * A fuse does not feel the order in which it was heated here: the plot shows how a start compares with a curve that was
 * measured at constant current, and the melt fraction decides. Checked by test/exceedance.test.ts against closed forms.
 *
 * @param time_s     ascending; equal times stand on both sides of a jump
 * @param current_A  rms, one for every time
 * @param levels     how many levels, evenly spaced on a logarithmic axis down to `floor` of the highest
 * @param floor      fraction of the highest current, 0 to 1 exclusive
 * @returns descending currents, so that times ascend; empty when no current flowed
 */
export function exceedance(
  time_s: ArrayLike<number>,
  current_A: ArrayLike<number>,
  levels = 80,
  floor = 0.1,
): CurvePoint[] {
  if (!(floor > 0 && floor < 1)) throw new RangeError(`invalid floor: ${floor} (expected 0 to 1 exclusive)`);
  if (!(levels >= 2)) throw new RangeError(`invalid levels: ${levels} (expected 2 or more)`);
  let highest = 0;
  for (let i = 0; i < current_A.length; i += 1) highest = Math.max(highest, current_A[i]);
  if (highest === 0) return [];
  return Array.from({ length: levels }, (_, k) => {
    const level = highest * floor ** (k / (levels - 1));
    return { current_A: level, time_s: timeAbove(time_s, current_A, level) };
  });
}

function timeAbove(time_s: ArrayLike<number>, current_A: ArrayLike<number>, level: number): number {
  let sum = 0;
  for (let i = 1; i < time_s.length; i += 1) {
    const [a, b] = [current_A[i - 1] - level, current_A[i] - level];
    const dt = time_s[i] - time_s[i - 1];
    if (a >= 0 && b >= 0) sum += dt;
    else if (a > 0 || b > 0) sum += (dt * Math.max(a, b)) / Math.abs(b - a);
  }
  return sum;
}

/**
 * Time at a current on a curve, straight between its points on logarithmic axes.
 *
 * @param curve  ascending or descending in current
 * @returns null outside the curve
 */
export function timeAt(curve: readonly CurvePoint[], current_A: number): number | null {
  for (let i = 1; i < curve.length; i += 1) {
    const [a, b] = [curve[i - 1], curve[i]];
    const outside =
      current_A < Math.min(a.current_A, b.current_A) || current_A > Math.max(a.current_A, b.current_A);
    if (outside) continue;
    const part = Math.log(current_A / a.current_A) / Math.log(b.current_A / a.current_A);
    return a.current_A === b.current_A ? a.time_s : a.time_s * (b.time_s / a.time_s) ** part;
  }
  return null;
}
