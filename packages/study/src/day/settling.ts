/** Longest stretch over which a body is taken to settle with one time constant, s. */
const LONGEST_s = 60;

/**
 * A body that takes in power and sheds more the warmer it is, after a time: C dT/dt = net(T).
 *
 * Stretch by stretch, with the slope of the balance at its beginning held: exact where that is a straight line,
 * of second order where it is not, and steady at whatever step.
 *
 * @param net power left over at a temperature, W; falls with it
 * @param capacity heat that a kelvin holds, J/K, above 0
 * Checked by packages/study/test/day/bodies.test.ts against fine steps.
 */
export function settling(
  net: (at: number) => number,
  capacity: number,
  from: number,
  time_s: number,
): number {
  const stretches = Math.max(1, Math.ceil(time_s / LONGEST_s));
  const dt = time_s / stretches;
  let at = from;
  for (let k = 0; k < stretches; k++) {
    const power = net(at);
    const slope = (net(at + STEP_K) - net(at - STEP_K)) / (2 * STEP_K);
    const z = (slope * dt) / capacity;
    const share = Math.abs(z) < 1e-9 ? 1 : Math.expm1(z) / z;
    at += (power * dt * share) / capacity;
  }
  return at;
}

const STEP_K = 1e-3;
