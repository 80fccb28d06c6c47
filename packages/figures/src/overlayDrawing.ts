/** The ink of an overlay: panels, axis, key. */

import type { Story } from "@startgap/study";
import { axisTitle, type Box, levelAxis, levelGrid } from "./axes.ts";
import { append, appendText } from "./context.ts";
import { drawKey, keyRoomOf } from "./key.ts";
import { drawMeasured, type Measured } from "./measured.ts";
import { drawGround } from "./overlayGround.ts";
import type { OverlayLayout } from "./overlayLayout.ts";
import { drawCurves, drawHeading } from "./overlayPanel.ts";
import type { VoltageBand } from "./voltageBands.ts";

export interface DrawingOptions {
  readonly inVolts: boolean;
  readonly bands: readonly VoltageBand[];
  readonly measured: readonly Measured[];
  readonly secondStart_s: number | null;
  /** Whether there is room for a key above the panels. */
  readonly keyed: boolean;
}

export function drawPanels(
  ink: SVGElement,
  stories: readonly Story[],
  layout: OverlayLayout,
  { inVolts, bands, measured, secondStart_s, keyed }: DrawingOptions,
): void {
  const { panels, plot, size, xTicks } = layout;
  const cases = [...new Set(panels.flatMap(({ content }) => content.curves.map((curve) => curve.case)))];
  const inner = append(ink, "g", { class: cases.length === 1 ? "alone" : "several" });
  const settings = { inVolts, bands, stories, named: !keyed, taken: markBox(secondStart_s, layout) };
  const boxes = panels.map(({ box }) => box);
  for (const panel of panels) drawGround(inner, panel, layout, settings);
  levelGrid(inner, boxes, xTicks);
  const unnamed = panels.map((panel) => drawCurves(append(inner, "g"), panel, layout, settings));
  const keyRoom = keyed ? 0 : keyRoomOf(cases, size);
  const ends = panels.map((panel, i) => drawHeading(inner, panel, layout, inVolts, i === 0 ? keyRoom : 0));
  levelAxis(inner, plot, xTicks, size);
  axisTitle(inner, plot, "time after the first start, s", size, plot.bottom + size * 4.4);
  drawMeasured(inner, layout, measured);
  if (keyed) drawKey(inner, cases, size * 0.5, size * 1.2, size);
  else if (unnamed[0]?.length > 0) drawKey(inner, cases, ends[0] + size * 1.5, size * 1.55, size);
  if (panels.length === 0) appendText(inner, "No story to show.", { x: size, y: size * 2 });
}

/** The upright line of the second start: no words may stand across it. */
function markBox(secondStart_s: number | null, { x, plot }: OverlayLayout): Box[] {
  if (secondStart_s === null) return [];
  return [{ ...plot, left: x(secondStart_s) - 3, right: x(secondStart_s) + 3 }];
}
