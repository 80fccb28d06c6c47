/** Words beside the curves they name: where they fit without touching a curve or each other. */

import type { Box } from "./axes.ts";
import type { Stretch } from "./polyline.ts";

/** For every slice of the box, the span of y that a curve fills there; NaN where there is no curve. */
export interface Profile {
  readonly low: Float64Array;
  readonly high: Float64Array;
}

export interface Wanted {
  /** Which of the profiles is named. */
  readonly curve: number;
  readonly width: number;
  /** The point of the curve that the words are about, px. */
  readonly about: { readonly x: number; readonly y: number };
}

/** Width of a slice, px. */
const slice = 5;
/** Room between words and curves, px. */
const gap = 3;

/** The profile of a curve over a box. Checked by test/labels.test.ts. */
export function profileOf(stretches: readonly Stretch[], box: Box): Profile {
  const count = Math.max(1, Math.ceil((box.right - box.left) / slice));
  const low = new Float64Array(count).fill(Number.NaN);
  const high = new Float64Array(count).fill(Number.NaN);
  for (const points of stretches)
    for (let k = 0; k + 3 < points.length; k += 2) {
      const from = Math.floor((points[k] - box.left) / slice);
      const to = Math.min(Math.floor((points[k + 2] - box.left) / slice), count - 1);
      for (let i = Math.max(from, 0); i <= to; i += 1) widen(low, high, i, points, k, box.left);
    }
  return { low, high };
}

/** Let slice `i` hold the piece of the segment at `k` that crosses it. */
function widen(
  low: Float64Array,
  high: Float64Array,
  i: number,
  points: Stretch,
  k: number,
  left: number,
): void {
  const [x0, y0, x1, y1] = [points[k], points[k + 1], points[k + 2], points[k + 3]];
  const from = Math.max(x0, left + i * slice);
  const to = Math.min(x1, left + (i + 1) * slice);
  const steep = x1 - x0 < 1e-9;
  const a = steep ? y0 : y0 + ((y1 - y0) * (from - x0)) / (x1 - x0);
  const b = steep ? y1 : y0 + ((y1 - y0) * (to - x0)) / (x1 - x0);
  low[i] = Math.min(a, b, Number.isNaN(low[i]) ? a : low[i]);
  high[i] = Math.max(a, b, Number.isNaN(high[i]) ? a : high[i]);
}

/**
 * Boxes for words beside their curves, or null for words that fit nowhere.
 *
 * Tries every slice, above the curve, below it and level with the point that the words are about, and takes the place
 * nearest to that point which touches neither a curve, nor the frame, nor words placed before.
 *
 * @param height  of the words, px
 * @param taken   boxes that must stay free; not changed
 */
export function placeLabels(
  profiles: readonly Profile[],
  wanted: readonly Wanted[],
  box: Box,
  height: number,
  taken: readonly Box[] = [],
): (Box | null)[] {
  const used = [...taken];
  return wanted.map((label) => {
    const place = best({ profiles, label, box, height, used });
    if (place !== null) used.push(place);
    return place;
  });
}

interface Search {
  readonly profiles: readonly Profile[];
  readonly label: Wanted;
  readonly box: Box;
  readonly height: number;
  readonly used: readonly Box[];
}

function best(search: Search): Box | null {
  const { profiles, used } = search;
  const slices = Math.ceil(search.label.width / slice) + 1;
  let [found, least]: [Box | null, number] = [null, Number.POSITIVE_INFINITY];
  const attempt = (i: number, top: number, price: number) => {
    const place = inside(search, i, slices, top);
    if (place === null) return;
    const far = distance(place, search.label);
    const cost = far + price;
    if (price > gap && far > hiddenReach) return;
    if (cost >= least || touches(place, used) || crossed(profiles, i, slices, place)) return;
    [found, least] = [place, cost];
  };
  const { low, high } = profiles[search.label.curve];
  for (let i = 0; i + slices <= low.length; i += 1) {
    const price = hiddenPrice(search, i, slices);
    attempt(i, extreme(low, i, slices, -1) - gap - search.height, price);
    attempt(i, extreme(high, i, slices, 1) + gap, price);
  }
  const price = gap + hiddenPrice(search, sliceOf(search), 1);
  for (const i of besides(search, slices)) attempt(i, levelTop(search), price);
  return found;
}

/** The words' box at a slice, or null when it would leave the frame. */
function inside({ box, height, label }: Search, i: number, slices: number, top: number): Box | null {
  const count = Math.ceil((box.right - box.left) / slice);
  if (!(top >= box.top - 0.01 && top + height <= box.bottom + 0.01 && i >= 0 && i + slices <= count))
    return null;
  const left = box.left + i * slice;
  return { left, right: left + label.width, top, bottom: top + height };
}

/** Words level with the point that they are about. */
function levelTop({ label, box, height }: Search): number {
  return Math.min(Math.max(label.about.y - height / 2, box.top), box.bottom - height);
}

function sliceOf({ label, box }: Search): number {
  return Math.floor((label.about.x - box.left) / slice);
}

/** First slices to the right and to the left of the point where the curve has left the level of the words. */
function besides(search: Search, slices: number): number[] {
  const { label, profiles, height } = search;
  const { low, high } = profiles[label.curve];
  const top = levelTop(search) - gap;
  const beside = (i: number) => low[i] <= top + height + 2 * gap && high[i] >= top;
  const start = sliceOf(search);
  let [right, left] = [start, start];
  while (beside(right)) right += 1;
  while (beside(left)) left -= 1;
  return [right, left - slices + 1];
}

/** Lowest (sign -1) or highest (sign 1) of some slices; NaN when the curve is missing in any. */
function extreme(values: Float64Array, i: number, slices: number, sign: number): number {
  let out = Number.NEGATIVE_INFINITY;
  for (let k = i; k < i + slices; k += 1) {
    if (Number.isNaN(values[k])) return Number.NaN;
    out = Math.max(out, sign * values[k]);
  }
  return sign * out;
}

/** From a point to the middle of the words, sideways counting half: words are long. */
function distance({ left, right, top, bottom }: Box, { about }: Wanted): number {
  return Math.abs((left + right) / 2 - about.x) / 2 + Math.abs((top + bottom) / 2 - about.y);
}

/** Words should stand where their curve can be told from the others, if need be this many px further away. */
const hiddenCost = 200;
/** Where it cannot, words further than this from their point would be taken for another curve's, px. */
const hiddenReach = 80;

function hiddenPrice(search: Search, i: number, slices: number): number {
  return hidden(search, i, slices) ? hiddenCost : 0;
}

/** Whether another curve runs within a few px of this one along half of the words or more. */
function hidden({ profiles, label }: Search, i: number, slices: number): boolean {
  const own = profiles[label.curve];
  const near = 2 * gap;
  return profiles.some((other) => {
    if (other === own) return false;
    let count = 0;
    for (let k = i; k < i + slices; k += 1)
      if (Math.abs(other.low[k] + other.high[k] - own.low[k] - own.high[k]) < 2 * near) count += 1;
    return count * 2 >= slices;
  });
}

function touches(place: Box, used: readonly Box[]): boolean {
  return used.some(
    (box) =>
      place.left < box.right && box.left < place.right && place.top < box.bottom && box.top < place.bottom,
  );
}

function crossed(profiles: readonly Profile[], i: number, slices: number, place: Box): boolean {
  return profiles.some(({ low, high }) => {
    for (let k = i; k < i + slices; k += 1)
      if (high[k] > place.top - gap + 0.5 && low[k] < place.bottom + gap - 0.5) return true;
    return false;
  });
}

/**
 * Spread words along a line so that none overlaps the next and all stay within it: each as near as can be to where it
 * wants to stand. In order of wish; when there is no room at all they touch evenly.
 *
 * @returns centres, px, in the order given
 */
export function spread(
  wishes: readonly number[],
  lengths: readonly number[],
  from: number,
  to: number,
): number[] {
  const order = wishes.map((_, i) => i).sort((a, b) => wishes[a] - wishes[b] || a - b);
  const out: number[] = new Array(wishes.length).fill(0);
  let free = from;
  for (const i of order) {
    out[i] = Math.max(wishes[i], free + lengths[i] / 2);
    free = out[i] + lengths[i] / 2;
  }
  let limit = to;
  for (const i of order.reverse()) {
    out[i] = Math.min(out[i], limit - lengths[i] / 2);
    limit = out[i] - lengths[i] / 2;
  }
  return out;
}
