/** Worst voltages, fuse heating and run-up against how long the second motor is held back. */

import type { DelayAdvice, DelayMap } from "@startgap/study";
import { drawAdvice } from "./adviceMarks.ts";
import { axisTitle, type Box, levelAxis, levelGrid, uprightAxis } from "./axes.ts";
import { append, appendText, type Page } from "./context.ts";
import { type MapLayout, mapLayout, type PlacedPanel, wantedPanelsHeight } from "./delayMapLayout.ts";
import { mapPanels, type Nominals } from "./delayMapPanels.ts";
import { setting } from "./format.ts";
import { describe, type FigureOptions, fontSize, frame, heightOf, resize, widthOf } from "./frame.ts";
import { level } from "./path.ts";
import { isClear, profileOf } from "./profile.ts";
import { drawRails, railRow, railsOf } from "./rails.ts";
import { drawSeries, flowKey, nameEnds } from "./series.ts";
import { type Span, spansWhere } from "./spans.ts";
import { drawBands, nameBands, placeBands, rectangle, voltageBands } from "./voltageBands.ts";

export interface DelayMapOptions extends FigureOptions {
  /** Nominal voltage of every motor by its name: motors without one are left out of the voltages. */
  readonly nominal_V?: Nominals;
}

/** Where things stand in a delay map, px from its top left corner. */
export interface DelayMapGeometry {
  readonly width: number;
  readonly height: number;
  /** From the first panel's top to the axis of delays. */
  readonly plot: Box;
  /** Top to bottom. */
  readonly panels: readonly Box[];
  /** From a delay in s to x in px; `xScale.invert` leads back. */
  readonly xScale: MapLayout["x"];
}

/**
 * The delay map: lowest voltage at every motor and receptacle, how far the fuses come to melting, and run-up times
 * against the delay of the second start; passing range shaded, knee and recommended delay marked.
 *
 * @param page  the document to draw in
 * @throws RangeError for a width or height that makes no figure
 */
export function delayMap(page: Page, map: DelayMap, options: DelayMapOptions = {}): SVGSVGElement {
  const { root, ink, width, size } = frame(page, options);
  const { height, layout, rails, base } = placed(map, options, width, size);
  const passing = spansWhere(map.delay_s, (i) => map.passes[i]);
  for (const panel of layout.panels) drawPanel(ink, panel, layout, map, passing, size);
  drawRails(ink, rails, layout.plot, layout.plot.bottom, layout.x, size);
  levelAxis(ink, base, layout.xTicks, size);
  drawAdvice(ink, map.advice, base, layout, size);
  axisTitle(ink, base, "second start held back by, s", size, base.bottom + size * 4.5);
  resize(root, width, height);
  describe(root, options.prefix, "What holding the second motor back gains", summaryOf(map.advice));
  return root;
}

/** Where `delayMap` with the same map and options puts its panels and its axis. */
export function delayMapGeometry(map: DelayMap, options: DelayMapOptions = {}): DelayMapGeometry {
  const width = widthOf(options);
  const { height, layout, base } = placed(map, options, width, fontSize(width));
  return { width, height, plot: base, panels: layout.panels.map(({ box }) => box), xScale: layout.x };
}

function placed(map: DelayMap, options: DelayMapOptions, width: number, size: number) {
  const contents = mapPanels(map, options.nominal_V ?? {});
  const rails = railsOf(map);
  const railHeight = railRow * rails.length * size;
  const foot = railHeight + 5.2 * size;
  const height = heightOf(options, wantedPanelsHeight(contents, width, size) + foot);
  const layout = mapLayout(contents, map, width, height - foot, size);
  const base = { ...layout.plot, bottom: layout.plot.bottom + railHeight + size * 0.2 };
  return { height, layout, rails, base };
}

function drawPanel(
  ink: SVGElement,
  panel: PlacedPanel,
  layout: MapLayout,
  map: DelayMap,
  passing: readonly Span[],
  size: number,
): void {
  const { box, y, quantity } = panel;
  for (const { from, to } of passing)
    append(ink, "rect", {
      class: "range",
      ...rectangle({ ...box, left: layout.x(from), right: layout.x(to) }),
    });
  const bands = quantity === "voltage" ? placeBands(voltageBands, box, (fraction) => y(fraction * 100)) : [];
  drawBands(ink, bands);
  uprightAxis(ink, box, panel.ticks, size);
  levelGrid(ink, [box], layout.xTicks);
  if (quantity === "melt") append(ink, "path", { class: "limit", d: level(y(100), box) });
  const series = [...panel.faint.map((faint) => ({ ...faint, style: null })), ...panel.series];
  const drawn = drawSeries(ink, series, map.delay_s, layout.x, y, size);
  const profiles = drawn.map((stretches) => profileOf(stretches, box));
  nameBands(ink, bands, size * 0.9, (place) => isClear(profiles, box.left, place, 1));
  drawNames(ink, panel, layout, size);
}

function drawNames(ink: SVGElement, panel: PlacedPanel, layout: MapLayout, size: number): void {
  const { box, y, key, series, faint } = panel;
  const more = faint.length === 0 ? "" : `, ${faint.length} more parts faint`;
  const top = box.top - key;
  appendText(ink, panel.heading + more, { class: "heading", x: size * 0.5, y: top - size * 0.75 });
  if (layout.room > 0) nameEnds(ink, series, box, y, layout.room, size);
  else flowKey(ink, series, size * 0.5, top - size * 0.4, layout.keyWidth, size);
}

function summaryOf({ recommended_s, shortest_s, knee_s, until_s, reason }: DelayAdvice): string {
  const facts = [
    recommended_s === null ? "No delay is recommended." : `Recommended: ${setting(recommended_s)}.`,
    shortest_s === null ? "" : `Shortest that passes: ${setting(shortest_s)}.`,
    knee_s === null ? "" : `Past ${setting(knee_s)} a longer delay gains little.`,
    until_s === null || until_s === undefined ? "" : `Past ${setting(until_s)} it fails again.`,
    reason,
  ];
  return facts
    .filter((fact) => fact !== "")
    .join(" ")
    .replaceAll("\u00a0", " ");
}
