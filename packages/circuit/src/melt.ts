/**
 * A fuse element as a sum of first-order thermal terms driven by the square of the current:
 *
 *     dx_k/dt = (a_k (I/I_inf)^2 - x_k) / tau_k,   a_k >= 0,  sum a_k = 1,  melts when sum x_k reaches 1.
 */
export interface MeltTerms {
  /** I_inf: the current that would just melt it after an unlimited time. */
  readonly minimumFusing_A: number;
  /** a_k, shares that sum to 1. */
  readonly share: readonly number[];
  /** tau_k, ascending. */
  readonly tau_s: readonly number[];
}

/** One stretch of a current profile: an rms current held for a time. */
export interface CurrentStep {
  readonly current_A: number;
  readonly duration_s: number;
}

/** What a profile does to a fuse element that is watched but not opened. */
export interface MeltResponse {
  /** Highest melt fraction on the way; 1 melts, above 1 it would have melted with that much to spare. */
  readonly peak: number;
  /** When the melt fraction first reached 1, from the start of the profile; null when it never did. */
  readonly melted_s: number | null;
  /** Melt fraction of every term at the end. */
  readonly state: readonly number[];
}

/**
 * Time for a constant current to melt the element, cold or from the heat of a standing current.
 *
 * With i = I/I_inf and the element settled at p = P/I_inf, every term relaxes towards a_k i^2 from a_k p^2, so
 * the melt fraction is i^2 - (i^2 - p^2) sum a_k e^(-t/tau_k). It reaches 1 when
 *
 *     G(t) = sum a_k (1 - e^(-t/tau_k)) = (1 - p^2) / (i^2 - p^2)
 *
 * G rises from 0 to 1 and is concave, so there is one root, lying below the longest time constant's own.
 *
 * @param terms the element
 * @param current_A constant rms current, 0 or more
 * @param preload_A standing rms current before it, 0 (cold) or more
 * @returns seconds; 0 when the preload alone has melted it, Infinity when the current never melts it
 * @throws RangeError on a negative or non-finite current
 *
 * Assumes constant surroundings and no arcing time. Closed form of the equation at `MeltTerms`.
 * Checked by packages/circuit/test/melt.test.ts.
 */
export function meltingTime_s(terms: MeltTerms, current_A: number, preload_A = 0): number {
  checkAmount("current_A", current_A);
  checkAmount("preload_A", preload_A);
  const i2 = (current_A / terms.minimumFusing_A) ** 2;
  const p2 = (preload_A / terms.minimumFusing_A) ** 2;
  if (p2 >= 1) return 0;
  if (i2 <= 1) return Number.POSITIVE_INFINITY;
  return timeOfRise(terms, (1 - p2) / (i2 - p2), (i2 - 1) / (i2 - p2));
}

/**
 * The constant current that melts the element in exactly a given time: the time-current curve read upwards.
 *
 * From the same relation as `meltingTime_s`: i^2 = p^2 + (1 - p^2)/G(t).
 *
 * @param terms the element
 * @param time_s above 0; Infinity gives the minimum fusing current
 * @param preload_A standing rms current before it, 0 (cold) to below the minimum fusing current
 * @returns rms amperes
 * @throws RangeError on a time that is not above 0, or a preload that has already melted it
 */
export function meltingCurrent_A(terms: MeltTerms, time_s: number, preload_A = 0): number {
  if (!(time_s > 0)) throw new RangeError(`invalid time_s: ${time_s} (expected above 0)`);
  const p2 = (preload_A / terms.minimumFusing_A) ** 2;
  if (!(preload_A >= 0 && p2 < 1))
    throw new RangeError(`invalid preload_A: ${preload_A} (expected 0 to below ${terms.minimumFusing_A})`);
  return terms.minimumFusing_A * Math.sqrt(p2 + (1 - p2) / rise(terms, time_s));
}

/**
 * Melt fraction of every term after a constant current has flowed for a time; exact, whatever the time.
 *
 * @param terms the element
 * @param state melt fraction of every term before; `[0, 0, ...]` is cold
 * @param current_A constant rms current, 0 or more; 0 is a rest
 * @param time_s 0 or more
 * @returns melt fraction of every term after; their sum is the melt fraction of the element
 */
export function meltAfter(
  terms: MeltTerms,
  state: readonly number[],
  current_A: number,
  time_s: number,
): number[] {
  const i2 = (current_A / terms.minimumFusing_A) ** 2;
  return state.map((x, k) => x - (terms.share[k] * i2 - x) * Math.expm1(-time_s / terms.tau_s[k]));
}

/** Melt fraction of every term, settled under a standing rms current; 0 A gives the cold element. */
export function meltSettled(terms: MeltTerms, current_A: number): number[] {
  return terms.share.map((a) => a * (current_A / terms.minimumFusing_A) ** 2);
}

/**
 * Response of the element to a current held constant stretch by stretch.
 *
 * Exact at the ends of the stretches. Within one the melt fraction may still pass a crest (a quick term rises
 * while a slow one falls), so it is also read at instants 12 % apart in time; a crossing of 1 that shows there is
 * closed in on by halving. A crest between two instants is read too low by less than 0.5 % of itself.
 *
 * @param terms the element
 * @param profile stretches in order; durations 0 or more
 * @param before melt fraction of every term at the start; cold when absent
 * @throws RangeError on a negative or non-finite current or duration
 *
 * Checked against closed forms and step-by-step integration in packages/circuit/test/melt.test.ts.
 */
export function meltResponse(
  terms: MeltTerms,
  profile: readonly CurrentStep[],
  before: readonly number[] = meltSettled(terms, 0),
): MeltResponse {
  let state = before;
  let peak = sum(state);
  let melted_s = peak >= 1 ? 0 : null;
  let start_s = 0;
  for (const { current_A, duration_s } of profile) {
    checkAmount("current_A", current_A);
    checkAmount("duration_s", duration_s);
    const fraction = (t: number) => sum(meltAfter(terms, state, current_A, t));
    let last_s = 0;
    for (const t of instants(terms, duration_s)) {
      const here = fraction(t);
      if (melted_s === null && here >= 1) melted_s = start_s + crossing(fraction, last_s, t);
      peak = Math.max(peak, here);
      last_s = t;
    }
    state = meltAfter(terms, state, current_A, duration_s);
    start_s += duration_s;
  }
  return { peak, melted_s, state };
}

/** G(t) = sum a_k (1 - e^(-t/tau_k)), without the loss of digits when t is short. */
function rise(terms: MeltTerms, time_s: number): number {
  let total = 0;
  for (let k = 0; k < terms.share.length; k++) total -= terms.share[k] * Math.expm1(-time_s / terms.tau_s[k]);
  return total;
}

/**
 * The time at which G(t) = level, by halving in log t between two bounds, to the last digits.
 * Lower: G is concave, so it stays under its first tangent. Upper: it is at least what its slowest term makes.
 */
function timeOfRise(terms: MeltTerms, level: number, rest: number): number {
  const steepest = terms.share.reduce((s, a, k) => s + a / terms.tau_s[k], 0);
  const slowest = terms.tau_s[terms.tau_s.length - 1];
  let low = level / steepest;
  let high = Math.max(low, -slowest * (rest < 0.5 ? Math.log(rest) : Math.log1p(-level)));
  for (let n = 0; n < 200 && high > low * (1 + 4e-16); n++) {
    const middle = high > 2 * low ? Math.sqrt(low * high) : (low + high) / 2;
    if (middle <= low || middle >= high) break;
    if (rise(terms, middle) < level) low = middle;
    else high = middle;
  }
  return high;
}

/** Instants of a stretch at which the melt fraction is read: dense where the quickest term moves, then sparser. */
function instants(terms: MeltTerms, duration_s: number): number[] {
  const spacing = 1.12;
  const list: number[] = [];
  for (let t = Math.min(...terms.tau_s) / 20; t < duration_s; t *= spacing) list.push(t);
  return [...list, duration_s];
}

function crossing(fraction: (t: number) => number, from_s: number, to_s: number): number {
  let [low, high] = [from_s, to_s];
  for (let n = 0; n < 60; n++) {
    const middle = (low + high) / 2;
    if (fraction(middle) < 1) low = middle;
    else high = middle;
  }
  return high;
}

function sum(values: readonly number[]): number {
  return values.reduce((total, x) => total + x, 0);
}

function checkAmount(name: string, value: number): void {
  if (!(value >= 0 && value < Number.POSITIVE_INFINITY))
    throw new RangeError(`invalid ${name}: ${value} (expected 0 or more)`);
}
