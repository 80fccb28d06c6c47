/**
 * One thermal body: its rise over the air around it goes to `end_K` with one time constant,
 *
 *     rise(t) = end + (start - end) e^(-t/tau)
 *
 * @param time_s 0 or more; @param tau_s above 0
 * Source: any text on heating of machines, as B. L. Theraja, A Textbook of Electrical Technology, vol. III, ch. 45.
 * Checked by tests/published/heat-theraja.
 */
export function riseAfter_K(start_K: number, end_K: number, tau_s: number, time_s: number): number {
  if (!(tau_s > 0)) throw new RangeError(`invalid tau_s: ${tau_s} (expected above 0)`);
  if (!(time_s >= 0)) throw new RangeError(`invalid time_s: ${time_s} (expected 0 or more)`);
  return end_K + (start_K - end_K) * Math.exp(-time_s / tau_s);
}

/** A load that comes and goes: on towards `end_K`, off towards the air. */
export interface Cycle {
  readonly end_K: number;
  readonly on_s: number;
  readonly off_s: number;
  readonly heating_s: number;
  /** A machine at rest cools more slowly than it heats: its fan stands still. */
  readonly cooling_s: number;
}

/** Rises between which a body swings once a cycle has been repeated for long. */
export interface Swing {
  readonly low_K: number;
  readonly high_K: number;
}

/**
 * The settled swing of a cycle: high = end (1 - a)/(1 - a b), low = high b, with a and b what is left after the on and
 * the off time.
 *
 * Checked by tests/published/heat-theraja.
 */
export function settledSwing({ end_K, on_s, off_s, heating_s, cooling_s }: Cycle): Swing {
  if (on_s === 0) return { low_K: 0, high_K: 0 };
  const b = Math.exp(-off_s / cooling_s);
  const heated = -Math.expm1(-on_s / heating_s);
  const high_K = off_s === 0 ? end_K : (end_K * heated) / (1 - (1 - heated) * b);
  return { low_K: high_K * b, high_K };
}

/**
 * End and time constant of a heating from two readings, the second after twice the time of the first:
 * end = r1^2/(2 r1 - r2), tau = -t/ln(1 - r1/end).
 *
 * @throws RangeError when the readings do not level off: r2 must lie between r1 and 2 r1
 * Checked by tests/published/heat-theraja.
 */
export function fromTwoReadings(
  first_K: number,
  second_K: number,
  time_s: number,
): { readonly end_K: number; readonly tau_s: number } {
  if (!(first_K > 0 && second_K > first_K && second_K < 2 * first_K)) {
    throw new RangeError(
      `invalid readings: ${first_K}, ${second_K} (expected the second within the first's double)`,
    );
  }
  const end_K = first_K ** 2 / (2 * first_K - second_K);
  return { end_K, tau_s: -time_s / Math.log1p(-first_K / end_K) };
}

/**
 * How much more load than its continuous one a body bears for a short time from cold: 1/sqrt(1 - e^(-t/tau)).
 *
 * Losses are taken to go with the square of the load. Checked by tests/published/heat-theraja.
 */
export const shortTimeFactor = (tau_s: number, time_s: number): number =>
  1 / Math.sqrt(-Math.expm1(-time_s / tau_s));

/** End of the rise and time constant of a body from its loss, surface and mass: P/(h A) and m c/(h A). */
export function bodyOfMass(body: {
  readonly loss_W: number;
  readonly area_m2: number;
  readonly film_Wpm2K: number;
  readonly mass_kg: number;
  readonly heat_JpkgK: number;
}): { readonly end_K: number; readonly tau_s: number } {
  const shed_WpK = body.film_Wpm2K * body.area_m2;
  return { end_K: body.loss_W / shed_WpK, tau_s: (body.mass_kg * body.heat_JpkgK) / shed_WpK };
}

/** Temperature at which copper would have no resistance, negative, degC. Source: IEC 60028. */
const COPPER_C = 234.5;

/** Mean temperature of a copper winding from its resistance cold and hot. Source: IEC 60076-2. */
export const windingTemperature_C = (cold_ohm: number, cold_C: number, hot_ohm: number): number =>
  (hot_ohm / cold_ohm) * (COPPER_C + cold_C) - COPPER_C;
