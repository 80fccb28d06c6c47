import type { Excitation, Impedance } from "@startgap/circuit";

/** Losses of a transformer, W. */
export interface Losses {
  /** At rated voltage, whatever the load. */
  readonly core_W: number;
  /** In both windings at their rated current. */
  readonly winding_W: number;
}

/**
 * Losses at rated voltage and rated winding current, W: G V^2 across what is fed, and R I^2 in the leakage.
 *
 * @param fed_V     rated voltage across the input: the first winding, or both in series for an autotransformer
 * @param winding_V rated voltage of the first winding, to which the leakage is referred
 * @param rating_VA nameplate as a two-winding transformer
 */
export function ratedLosses(
  leakage: Impedance,
  excitation: Excitation,
  rating: { readonly fed_V: number; readonly winding_V: number; readonly rating_VA: number },
): Losses {
  return {
    core_W: excitation.conductance_S * rating.fed_V ** 2,
    winding_W: leakage.r_ohm * (rating.rating_VA / rating.winding_V) ** 2,
  };
}

/**
 * Loss at a load, W: the winding loss goes with the square of the load.
 *
 * @param loading load over rating, 0 or more; of an autotransformer over its through rating
 */
export function lossAt_W(losses: Losses, loading: number): number {
  if (!(loading >= 0)) throw new RangeError(`invalid loading: ${loading} (expected 0 or more)`);
  return losses.core_W + losses.winding_W * loading ** 2;
}

/**
 * Efficiency at a load, 0 to 1: output over output and loss.
 *
 * @param rated_VA    what loading 1 means: the nameplate, or the through rating
 * @param loading     load over rating, above 0
 * @param powerFactor 0 to 1
 * Limitation: the output is taken at rated voltage. Checked by tests/published/transformers-fitzgerald.
 */
export function efficiencyAt(losses: Losses, rated_VA: number, loading: number, powerFactor: number): number {
  if (!(powerFactor >= 0 && powerFactor <= 1)) {
    throw new RangeError(`invalid power factor: ${powerFactor} (expected 0 to 1)`);
  }
  const output_W = loading * rated_VA * powerFactor;
  return output_W === 0 ? 0 : output_W / (output_W + lossAt_W(losses, loading));
}

/**
 * Regulation, a fraction of rated voltage: how much higher the voltage must be at the input, referred to the output,
 * to hold rated voltage at a load. |1 + k z| - 1 with z per unit and the load as the phase reference.
 *
 * @param leakage     ohm, referred to a winding of `winding_V` and `rating_VA`
 * @param loading     load over rating, 0 or more
 * @param powerFactor 0 to 1, lagging
 */
export function regulationAt(
  leakage: Impedance,
  rating: { readonly winding_V: number; readonly rating_VA: number },
  loading: number,
  powerFactor: number,
): number {
  if (!(powerFactor >= 0 && powerFactor <= 1)) {
    throw new RangeError(`invalid power factor: ${powerFactor} (expected 0 to 1)`);
  }
  const perUnit = (loading * rating.rating_VA) / rating.winding_V ** 2;
  const [r, x] = [leakage.r_ohm * perUnit, leakage.x_ohm * perUnit];
  const sine = Math.sqrt(1 - powerFactor ** 2);
  return Math.hypot(1 + r * powerFactor + x * sine, x * powerFactor - r * sine) - 1;
}
