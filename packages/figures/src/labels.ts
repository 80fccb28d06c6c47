/** Words beside the curves they name: where they fit without touching a curve or each other. */

import type { Box } from "./axes.ts";
import { extreme, isClear, type Profile, slice } from "./profile.ts";

export interface Wanted {
  /** Which of the profiles is named. */
  readonly curve: number;
  readonly width: number;
  /** The point of the curve that the words are about, px. */
  readonly about: { readonly x: number; readonly y: number };
  /** Curves that the words are true of as well: standing beside one of them misleads nobody. */
  readonly alike?: readonly number[];
  /** Furthest that the words may stand from their point, px; default any distance along the curve. */
  readonly reach?: number;
}

/** Room between words and curves, px. */
const gap = 3;

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
    if (far > (search.label.reach ?? far) || (price > gap && far > hiddenReach)) return;
    if (cost >= least || touches(place, used)) return;
    if (!isClear(profiles, search.box.left, place, gap - 0.5)) return;
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

/** The words' box at a slice, or null when it would leave the frame; it may stand on the frame's upper edge. */
function inside({ box, height, label }: Search, i: number, slices: number, top: number): Box | null {
  const count = Math.ceil((box.right - box.left) / slice);
  const fits = top >= box.top - 1 && top + height <= box.bottom + 0.01;
  if (!fits || i < 0 || i + slices > count) return null;
  const left = box.left + i * slice;
  return { left, right: left + label.width, top, bottom: top + height };
}

/** Words level with the point that they are about. */
function levelTop({ label, box, height }: Search): number {
  return Math.min(Math.max(label.about.y - height / 2, box.top), box.bottom - height);
}

/** How many slices words may stand away from the curve that they are level with. */
const outwards = [0, 1, 2, 3];

function sliceOf({ label, box }: Search): number {
  return Math.floor((label.about.x - box.left) / slice);
}

/** Slices to the right and to the left of the point, from where the curve has left the level of the words outwards. */
function besides(search: Search, slices: number): number[] {
  const { label, profiles, height } = search;
  const { low, high } = profiles[label.curve];
  const top = levelTop(search) - gap;
  const beside = (i: number) => low[i] <= top + height + 2 * gap && high[i] >= top;
  const start = sliceOf(search);
  let [right, left] = [start, start];
  while (beside(right)) right += 1;
  while (beside(left)) left -= 1;
  return outwards.flatMap((k) => [right + k, left - slices + 1 - k]);
}

/** From a point to the middle of the words, sideways counting half: words are long. */
function distance({ left, right, top, bottom }: Box, { about }: Wanted): number {
  return Math.abs((left + right) / 2 - about.x) / 2 + Math.abs((top + bottom) / 2 - about.y);
}

/** Words should stand where their curve can be told from the others, if need be this many px further away. */
const hiddenCost = 200;
/** Where it cannot, words further than this from their point would be taken for another curve's, px. */
const hiddenReach = 48;

function hiddenPrice(search: Search, i: number, slices: number): number {
  return hidden(search, i, slices) ? hiddenCost : 0;
}

/** Whether another curve runs within a few px of this one along half of the words or more. */
function hidden({ profiles, label }: Search, i: number, slices: number): boolean {
  const own = profiles[label.curve];
  const near = 2 * gap;
  return profiles.some((other, index) => {
    if (other === own || label.alike?.includes(index)) return false;
    let count = 0;
    for (let k = i; k < i + slices; k += 1)
      if (Math.abs(other.low[k] + other.high[k] - own.low[k] - own.high[k]) < 2 * near) count += 1;
    return count * 2 >= slices;
  });
}

/** Whether a box overlaps any of some others. */
export function touches(place: Box, used: readonly Box[]): boolean {
  return used.some(
    (box) =>
      place.left < box.right && box.left < place.right && place.top < box.bottom && box.top < place.bottom,
  );
}
