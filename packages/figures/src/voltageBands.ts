/** What falling voltage does, as bands behind a curve. */

import type { Box } from "./axes.ts";
import { append, appendText } from "./context.ts";
import { textWidth } from "./textWidth.ts";

export interface VoltageBand {
  /** Upper edge, fraction of nominal voltage; the band reaches down to the next. */
  readonly below: number;
  readonly says: string;
}

/**
 * Common practice for a single start, no standard behind it: filament and cheap lamps dim visibly at a tenth down,
 * small contactors are only promised to hold from 85 % of their coil voltage up, and a loaded motor has at 80 % of its
 * voltage less than two thirds of its torque left.
 */
export const voltageBands: readonly VoltageBand[] = [
  { below: 0.9, says: "lamps dim" },
  { below: 0.85, says: "controls drop" },
  { below: 0.8, says: "motor may stall" },
];

const shades = ["dim", "drop", "stall"];

/** A band as it lies in a panel. */
export interface PlacedBand {
  readonly says: string;
  readonly shade: string;
  readonly box: Box;
}

/** @param y  from fraction of nominal to px */
export function placeBands(
  bands: readonly VoltageBand[],
  box: Box,
  y: (fraction: number) => number,
): PlacedBand[] {
  const edges = bands.map(({ below }) => Math.min(Math.max(y(below), box.top), box.bottom));
  const placed = bands.map(({ says }, i) => ({
    says,
    shade: shades[Math.min(i, shades.length - 1)],
    box: { ...box, top: edges[i], bottom: edges[i + 1] ?? box.bottom },
  }));
  return placed.filter(({ box: { top, bottom } }) => bottom - top > 0.5);
}

export function drawBands(parent: SVGElement, bands: readonly PlacedBand[]): void {
  for (const { shade, box } of bands) append(parent, "rect", { class: shade, ...rectangle(box) });
}

/**
 * Name the bands, each where its words cross no curve: at the right end or the left, high or low in the band. Words
 * that fit nowhere are left out.
 *
 * @returns the boxes of the words, which curves' own words must keep clear of
 */
export function nameBands(
  parent: SVGElement,
  bands: readonly PlacedBand[],
  size: number,
  isFree: (place: Box) => boolean,
): Box[] {
  return bands.flatMap(({ says, box }) => {
    const place = wordPlaces(says, box, size).find(isFree);
    if (place === undefined) return [];
    const at = { x: place.left, y: place.bottom - size * 0.25 };
    appendText(parent, says, { class: "soft", "font-size": size, ...at });
    return [place];
  });
}

function wordPlaces(says: string, box: Box, size: number): Box[] {
  const [wide, tall] = [textWidth(says, size), size * 1.1];
  const room = box.bottom - box.top - tall;
  if (room < 0) return [];
  const lefts = [box.right - wide - size * 0.4, box.left + size * 0.4];
  const tops = [0, 1, 0.5].map((part) => box.top + Math.min(room * part, room));
  return lefts.flatMap((left) => tops.map((top) => ({ left, right: left + wide, top, bottom: top + tall })));
}

/** A box as attributes of a rect. */
export function rectangle({ left, right, top, bottom }: Box) {
  return { x: left, y: top, width: right - left, height: bottom - top };
}
