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

/**
 * Draw the bands across a box and name them at its left edge.
 *
 * @param y  from fraction of nominal to px
 * @returns the boxes of the words, which curves' own words must keep clear of
 */
export function drawBands(
  parent: SVGElement,
  bands: readonly VoltageBand[],
  box: Box,
  y: (fraction: number) => number,
  size: number,
): Box[] {
  const edges = bands.map(({ below }) => Math.min(Math.max(y(below), box.top), box.bottom));
  return bands.flatMap(({ says }, i) => {
    const band = { ...box, top: edges[i], bottom: edges[i + 1] ?? box.bottom };
    if (band.bottom - band.top < 0.5) return [];
    append(parent, "rect", { class: shades[Math.min(i, 2)], ...rectangle(band) });
    return bandWords(parent, says, band, size);
  });
}

function bandWords(parent: SVGElement, says: string, band: Box, size: number): Box[] {
  if (band.bottom - band.top < size) return [];
  const y = Math.min(band.top + size * 1.05, (band.top + band.bottom) / 2 + size * 0.35);
  const x = band.right - size * 0.4;
  appendText(parent, says, { class: "soft", "font-size": size, "text-anchor": "end", x, y });
  return [{ left: x - textWidth(says, size), right: x, top: y - size * 0.8, bottom: y + size * 0.25 }];
}

/** A box as attributes of a rect. */
export function rectangle({ left, right, top, bottom }: Box) {
  return { x: left, y: top, width: right - left, height: bottom - top };
}
