import { type MeltTerms, meltingTime_s } from "@startgap/circuit";

/**
 * The factor by which a whole current profile could grow before the fuse just melts.
 *
 * The melt fraction is linear in the square of the current, so it is exactly 1/sqrt of its highest value.
 *
 * @param maxMelt highest melt fraction of the profile from cold, 0 or more
 * @returns factor: above 1 the fuse holds; null when no current flowed
 * @throws RangeError on a negative or non-finite melt fraction
 *
 * Checked by packages/cabinet/test/fuseAmbient.test.ts.
 */
export function currentMargin(maxMelt: number): number | null {
  if (!(maxMelt >= 0 && maxMelt < Number.POSITIVE_INFINITY))
    throw new RangeError(`invalid maxMelt: ${maxMelt} (expected 0 or more)`);
  return maxMelt === 0 ? null : 1 / Math.sqrt(maxMelt);
}

/**
 * How long a fuse holds a constant current, cold or already warm from a standing current.
 *
 * @param terms fast edge of the fuse's band, already derated for its surroundings
 * @param current_A constant rms current, 0 or more
 * @param preload_A standing rms current that has warmed it, 0 (cold) when silent
 * @returns seconds; Infinity when it holds for ever, 0 when the preload alone melts it
 * @throws RangeError on a negative or non-finite current
 */
export function holdTime_s(terms: MeltTerms, current_A: number, preload_A = 0): number {
  return meltingTime_s(terms, current_A, preload_A);
}
