import type { PartModel } from "./model.ts";
import type { Walk } from "./walk.ts";

const MOST_ROUNDS = 50;
const AGREED = 1e-12;

/**
 * The states a story begins with: those of a part that has been at work before it, steady on what is live then.
 *
 * Each such part sets its states from the network that the states make; loads that are not impedances make that
 * more than one round.
 *
 * @param y0    the states as the parts alone would have them
 * @param solve the network before the story, with no motor connected
 */
export function beforehand(
  models: readonly PartModel[],
  y0: readonly number[],
  solve: (y: readonly number[]) => Walk,
): readonly number[] {
  if (models.every((model) => model.begin === null)) return y0;
  const y = y0.slice();
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const walk = solve(y);
    const change = models.reduce((most, model) => Math.max(most, model.begin?.(walk, y) ?? 0), 0);
    if (change <= AGREED) break;
  }
  return y;
}
