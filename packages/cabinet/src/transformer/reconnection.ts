/**
 * A two-winding transformer reconnected as an autotransformer. The common winding is shared by both sides, the
 * series winding lies between them: its voltage adds to the common one, or is taken from it.
 */
export interface Reconnection {
  /** Nameplate as a two-winding transformer, VA. */
  readonly rating_VA: number;
  readonly common_V: number;
  readonly series_V: number;
  readonly connection: "additive" | "subtractive";
}

/** What the reconnected unit may carry with no winding above its rated current. */
export interface ReconnectedRatings {
  readonly high_V: number;
  readonly low_V: number;
  readonly high_A: number;
  readonly low_A: number;
  readonly through_VA: number;
  /** The part that passes through the core: the nameplate. */
  readonly transformed_VA: number;
  /** The part that is conducted straight through. */
  readonly conducted_VA: number;
  readonly seriesWinding_A: number;
  readonly commonWinding_A: number;
}

/**
 * Ratings of a reconnected transformer, both windings at their rated current.
 *
 * Additive: the series winding carries the current of the high side, S/Vs, so through = S (Vc + Vs)/Vs. Subtractive:
 * it carries that of the low side, so through = S (Vc - Vs)/Vs. Losses and exciting current are left out.
 *
 * @param reconnection rating and voltages above 0; for "subtractive" the series voltage below the common one
 * @throws RangeError otherwise: windings in opposition with equal voltages leave nothing, or a short circuit
 * Source: S. J. Chapman, Electric Machinery Fundamentals, 5th ed., section 2.9. Checked by
 * tests/published/transformers-chapman and its neighbours.
 */
export function reconnected(reconnection: Reconnection): ReconnectedRatings {
  checkReconnection(reconnection);
  const { rating_VA, common_V, series_V, connection } = reconnection;
  const additive = connection === "additive";
  const high_V = additive ? common_V + series_V : common_V;
  const low_V = additive ? common_V : common_V - series_V;
  const through_VA = (rating_VA / series_V) * (additive ? high_V : low_V);
  return {
    high_V,
    low_V,
    high_A: through_VA / high_V,
    low_A: through_VA / low_V,
    through_VA,
    transformed_VA: rating_VA,
    conducted_VA: through_VA - rating_VA,
    seriesWinding_A: rating_VA / series_V,
    commonWinding_A: rating_VA / common_V,
  };
}

function checkReconnection({ rating_VA, common_V, series_V, connection }: Reconnection): void {
  for (const [name, value] of Object.entries({ rating: rating_VA, common: common_V, series: series_V })) {
    if (!(value > 0 && Number.isFinite(value)))
      throw new RangeError(`invalid ${name}: ${value} (expected above 0)`);
  }
  if (connection === "subtractive" && !(series_V < common_V)) {
    throw new RangeError(
      `invalid series: ${series_V} (expected below the common ${common_V} when subtractive)`,
    );
  }
}

/** Through rating of a reconnected transformer, VA: how much it may pass on. See `reconnected`. */
export const throughRating_VA = (reconnection: Reconnection): number => reconnected(reconnection).through_VA;

/** One way round a reconnected transformer is used. */
export interface Sides {
  readonly input_V: number;
  readonly input_A: number;
  readonly output_V: number;
  readonly output_A: number;
  readonly seriesWinding_A: number;
  readonly commonWinding_A: number;
}

/**
 * Voltages and currents of a reconnected transformer that feeds a load of so many volt-amperes at its rated
 * voltage, ideal: no losses, no exciting current, no drop.
 *
 * The line and series currents follow from the load; the common winding carries their difference.
 *
 * @param fed "low" steps up, "high" steps down
 * @param load_VA 0 or more
 */
export function sidesAt(reconnection: Reconnection, fed: "high" | "low", load_VA: number): Sides {
  if (!(load_VA >= 0)) throw new RangeError(`invalid load: ${load_VA} (expected 0 or more)`);
  const { high_V, low_V } = reconnected(reconnection);
  const [high_A, low_A] = [load_VA / high_V, load_VA / low_V];
  const high = { V: high_V, A: high_A };
  const low = { V: low_V, A: low_A };
  const [input, output] = fed === "high" ? [high, low] : [low, high];
  return {
    input_V: input.V,
    input_A: input.A,
    output_V: output.V,
    output_A: output.A,
    seriesWinding_A: reconnection.connection === "additive" ? high_A : low_A,
    commonWinding_A: low_A - high_A,
  };
}
