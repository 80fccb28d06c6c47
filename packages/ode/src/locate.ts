/** Times closer than this count as one moment. */
export const SAME_MOMENT_s = 1e-9;
/** Width of the bracket at which a root is accepted. */
const BRACKET_s = 1e-12;

/**
 * Where a continuous function passes zero, given a bracket, on its far side.
 *
 * Chandrupatla's method: inverse quadratic interpolation where it is safe, else bisection. The returned time
 * lies on the side of `tFar`, so that the crossed condition is truly crossed there.
 *
 * @param value  the function; value(tNear) and value(tFar) have opposite signs, or value(tFar) is 0
 * @returns a time at most 1e-12 s (or a few units in the last place of t) past the crossing
 *
 * Source: T. R. Chandrupatla, Advances in Engineering Software 28 (1997) 145-149 (from memory).
 * Checked by packages/ode/test/locate.test.ts against closed forms.
 */
export function crossing(
  value: (t: number) => number,
  tNear: number,
  tFar: number,
  vNear: number,
  vFar: number,
): number {
  let [a, b, fa, fb] = [tNear, tFar, vNear, vFar];
  let [c, fc] = [a, fa];
  const farPositive = vFar > 0 || (vFar === 0 && vNear < 0);
  let far = tFar;
  let fraction = 0.5;
  for (let count = 0; count < 100; count++) {
    const width = Math.abs(b - a);
    if (width <= Math.max(BRACKET_s, 4 * Number.EPSILON * Math.abs(b))) break;
    const t = a + fraction * (b - a);
    const ft = value(t);
    if (ft === 0 || ft > 0 === farPositive) far = t;
    if (ft > 0 === fa > 0) {
      c = a;
      fc = fa;
    } else {
      c = b;
      fc = fb;
      b = a;
      fb = fa;
    }
    a = t;
    fa = ft;
    if (ft === 0) break;
    fraction = nextFraction(a, b, c, fa, fb, fc);
  }
  return far;
}

/** Where in the bracket to look next: interpolate if the three points allow it, else halve. */
function nextFraction(a: number, b: number, c: number, fa: number, fb: number, fc: number): number {
  const xi = (a - b) / (c - b);
  const phi = (fa - fb) / (fc - fb);
  const smallest = Math.min(0.5, (0.25 * BRACKET_s) / Math.abs(b - a));
  if (!(phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi)) return 0.5;
  const first = (fa / (fb - fa)) * (fc / (fb - fc));
  const second = ((c - a) / (b - a)) * (fa / (fc - fa)) * (fb / (fc - fb));
  return Math.min(1 - smallest, Math.max(smallest, first + second));
}

/** +1 when the value lies on the far side of zero for a guard of that direction (zero counts as far). */
export function isBeyond(value: number, rising: boolean): boolean {
  return rising ? value >= 0 : value <= 0;
}
