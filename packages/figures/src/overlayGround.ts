/** What lies behind the curves of a panel: bands, levels, and the words for both. */

import type { Story } from "@startgap/study";
import { type Box, uprightAxis } from "./axes.ts";
import { append, appendText } from "./context.ts";
import { touches } from "./labels.ts";
import type { OverlayLayout, OverlayPanel } from "./overlayLayout.ts";
import { level } from "./path.ts";
import { isClear, type Profile } from "./profile.ts";
import { textWidth } from "./textWidth.ts";
import { drawBands, nameBands, type PlacedBand, placeBands, type VoltageBand } from "./voltageBands.ts";

export interface PanelOptions {
  readonly inVolts: boolean;
  readonly bands: readonly VoltageBand[];
  /** Whether curves are named by their case, or by their figure alone because there is a key. */
  readonly named: boolean;
  /** Their events are marked on their currents. */
  readonly stories: readonly Story[];
  /** Boxes that words must keep clear of in every panel. */
  readonly taken: readonly Box[];
}

export function drawGround(
  parent: SVGElement,
  panel: OverlayPanel,
  layout: OverlayLayout,
  options: PanelOptions,
): void {
  const { box, content, y, ticks } = panel;
  drawBands(parent, bandsOf(panel, options));
  uprightAxis(parent, box, ticks, layout.size);
  if (content.quantity === "melt fraction") append(parent, "path", { class: "limit", d: level(y(100), box) });
}

function bandsOf({ box, content, factor, y }: OverlayPanel, { bands }: PanelOptions): PlacedBand[] {
  const nominal = content.nominal_V;
  if (content.quantity !== "voltage" || nominal === null) return [];
  return placeBands(bands, box, (fraction) => y(fraction * nominal * factor));
}

/** Name bands and levels where no curve passes; returns boxes that the curves' own words must keep clear of. */
export function nameGround(
  parent: SVGElement,
  panel: OverlayPanel,
  layout: OverlayLayout,
  options: PanelOptions,
  profiles: readonly Profile[],
): Box[] {
  const small = layout.size * 0.9;
  const isFree = (place: Box) =>
    isClear(profiles, panel.box.left, place, 1) && !touches(place, options.taken);
  if (panel.content.quantity === "melt fraction") return nameMelting(parent, panel, small, isFree);
  return nameBands(parent, bandsOf(panel, options), small, isFree);
}

function nameMelting(
  parent: SVGElement,
  { box, y }: OverlayPanel,
  size: number,
  isFree: (place: Box) => boolean,
): Box[] {
  const line = { ...box, top: y(100) - 1, bottom: y(100) + 1 };
  const left = box.right - size * 0.4 - textWidth("melts", size);
  const place = { left, right: box.right, top: line.bottom, bottom: line.bottom + size * 1.2 };
  if (!isFree(place)) return [line];
  appendText(parent, "melts", { class: "soft", "font-size": size, x: left, y: place.bottom - size * 0.2 });
  return [line, place];
}
