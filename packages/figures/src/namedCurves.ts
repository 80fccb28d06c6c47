/** Curves of a panel, and words beside them where there is room. */

import type { Box } from "./axes.ts";
import { append, appendText } from "./context.ts";
import { placeLabels } from "./labels.ts";
import { pathOf, type Stretch } from "./polyline.ts";
import { type Profile, profileOf } from "./profile.ts";
import { textWidth } from "./textWidth.ts";

export interface DrawnCurve {
  readonly class: string;
  readonly stretches: readonly Stretch[];
}

/** Words about a point of one of the curves. */
export interface Label {
  readonly curve: number;
  readonly says: string;
  /** Class of the words. */
  readonly class: string;
  /** px */
  readonly about: { readonly x: number; readonly y: number };
  /** Other curves that the words are true of. */
  readonly alike?: readonly number[];
  /** Furthest that the words may stand from their point, px. */
  readonly reach?: number;
}

/**
 * Draw curves and then labels, in the order given: what comes first has the choice of place.
 *
 * @param taken  boxes that labels must keep clear of, given the profiles of the curves
 * @returns for every label whether it found a place
 */
export function drawNamedCurves(
  parent: SVGElement,
  curves: readonly DrawnCurve[],
  labels: readonly Label[],
  box: Box,
  size: number,
  taken: (profiles: readonly Profile[]) => readonly Box[],
): boolean[] {
  for (const { class: kind, stretches } of curves) {
    const dense = isDense(stretches, box) ? " dense" : "";
    append(parent, "path", { class: `curve ${kind}${dense}`, d: pathOf(stretches) });
  }
  const profiles = curves.map(({ stretches }) => profileOf(stretches, box));
  const wanted = labels.map((label) => ({ ...label, width: textWidth(label.says, size, true) }));
  const places = placeLabels(profiles, wanted, box, size * 1.05, taken(profiles));
  return places.map((place, i) => {
    if (place === null) return false;
    const at = { x: (place.left + place.right) / 2, y: place.bottom - size * 0.23 };
    appendText(parent, labels[i].says, {
      class: `strong ${labels[i].class}`,
      "text-anchor": "middle",
      ...at,
    });
    return true;
  });
}

/** How many times a curve may run up and down its panel before it is a tangle. */
const mostTravels = 12;

function isDense(stretches: readonly Stretch[], box: Box): boolean {
  let travel = 0;
  for (const points of stretches)
    for (let k = 3; k < points.length; k += 2) travel += Math.abs(points[k] - points[k - 2]);
  return travel > mostTravels * (box.bottom - box.top);
}
