/** Voltage, current, speeds and fuse heating of every case, over one another on one time axis. */

import type { Check } from "@startgap/study";
import { max } from "d3";
import { axisTitle, type Box, levelAxis, levelGrid } from "./axes.ts";
import { append, appendText, type Page } from "./context.ts";
import {
  describe,
  type FigureOptions,
  type Frame,
  fontSize,
  frame,
  heightOf,
  resize,
  widthOf,
} from "./frame.ts";
import { drawKey, keyRoomOf } from "./key.ts";
import { drawMeasured, type Measured } from "./measured.ts";
import { morphChildren } from "./morph.ts";
import { layoutOf, type OverlayLayout, wantedHeight } from "./overlayLayout.ts";
import { drawCurves, drawGround, drawHeading } from "./overlayPanel.ts";
import { contentsOf, type Selection } from "./overlaySelection.ts";
import { overlaySummary } from "./overlayWords.ts";
import { moveSecondStart, secondStartMark } from "./secondStart.ts";
import { drawStoryMarks } from "./storyMarks.ts";
import { type VoltageBand, voltageBands } from "./voltageBands.ts";

export interface OverlayOptions extends FigureOptions, Selection {
  /** Voltages in percent of nominal (default) or in V. */
  readonly voltageIn?: "percent" | "V";
  /** Part of the story to show; default all of it. */
  readonly from_s?: number;
  readonly to_s?: number;
  readonly bands?: readonly VoltageBand[];
  /** Readings of a meter on site, drawn as dots on the panel of their quantity. */
  readonly measured?: readonly Measured[];
}

/** Where things stand in an overlay, px from its top left corner. */
export interface OverlayGeometry {
  readonly width: number;
  readonly height: number;
  /** From the first panel's top to the time axis. */
  readonly plot: Box;
  /** From time in s to x in px; `xScale.invert` leads back. */
  readonly xScale: OverlayLayout["x"];
  /** Top to bottom; `yScale` takes the value as drawn: percent, V, A, rpm. */
  readonly panels: readonly {
    readonly quantity: string;
    readonly part: string | null;
    readonly box: Box;
    readonly yScale: OverlayLayout["x"];
  }[];
  /** The element that stands for the second start, and where; null when no story has one on the axis. */
  readonly secondStart: { readonly node: SVGGElement; readonly x: number; readonly time_s: number } | null;
}

export interface Overlay {
  readonly node: SVGSVGElement;
  /** As of the last drawing. */
  readonly geometry: OverlayGeometry;
  /**
   * Draw another check, or the same with other options, into the same node; options left out stay as they were. The
   * second start's group stays the same element, so a drag that began on it goes on. Returns the new geometry.
   */
  update(check: Check, options?: OverlayOptions): OverlayGeometry;
}

/**
 * Four panels over one time axis: rms voltage at one point, current of one part, speeds, and how far a fuse has come to
 * melting; the cases laid over each other.
 *
 * @param page  the document to draw in
 * @throws RangeError for a width, height or span that makes no figure
 */
export function overlay(page: Page, check: Check, options: OverlayOptions = {}): Overlay {
  const shell = frame(page, options);
  const mark = secondStartMark(shell.root);
  let [current, geometry] = [options, redraw(shell, mark, check, options)];
  return {
    node: shell.root,
    get geometry() {
      return geometry;
    },
    update(next, changes = {}) {
      current = { ...current, ...changes };
      geometry = redraw(shell, mark, next, current);
      return geometry;
    },
  };
}

/** Below this width, px, curves carry their figures alone and a key stands above. */
const narrow = 640;

function redraw(shell: Frame, mark: SVGGElement, check: Check, options: OverlayOptions): OverlayGeometry {
  const contents = contentsOf(check, options);
  const inVolts = options.voltageIn === "V";
  const width = widthOf(options);
  const size = fontSize(width);
  const height = heightOf(options, wantedHeight(width, contents.length));
  const keyRoom = width < narrow ? size * 1.9 : 0;
  const layout = layoutOf(contents, spanOf(check, options), width, height, size, keyRoom, inVolts);
  const ink = shell.ink.cloneNode(false) as SVGGElement;
  drawPanels(ink, check, layout, options, keyRoom > 0);
  morphChildren(shell.ink, ink);
  resize(shell.root, width, height);
  const start = secondStartOf(check);
  moveSecondStart(mark, layout, start);
  describe(
    shell.root,
    options.prefix,
    `Start of ${check.report.title}`,
    overlaySummary(check, contents, inVolts),
  );
  return geometryOf(layout, mark, start);
}

function drawPanels(
  ink: SVGElement,
  check: Check,
  layout: OverlayLayout,
  options: OverlayOptions,
  keyed: boolean,
) {
  const { panels, plot, size, xTicks } = layout;
  const inVolts = options.voltageIn === "V";
  const settings = { inVolts, bands: options.bands ?? voltageBands, named: !keyed };
  const grounds = panels.map((panel) => drawGround(ink, panel, layout, settings));
  levelGrid(
    ink,
    panels.map(({ box }) => box),
    xTicks,
  );
  const start = markBox(check, layout);
  const unnamed = panels.map((panel, i) =>
    drawCurves(append(ink, "g"), panel, layout, settings, [...grounds[i], ...start]),
  );
  const cases = [...new Set(panels.flatMap(({ content }) => content.curves.map((curve) => curve.case)))];
  const keyWidth = keyed ? 0 : keyRoomOf(cases, size);
  const ends = panels.map((panel, i) => drawHeading(ink, panel, layout, inVolts, i === 0 ? keyWidth : 0));
  levelAxis(ink, plot, xTicks, size);
  axisTitle(ink, plot, "time after the first start, s", size, plot.bottom + size * 4.4);
  drawStoryMarks(ink, check, layout);
  drawMeasured(ink, layout, options.measured ?? []);
  if (keyed) drawKey(ink, cases, size * 0.5, size * 1.2, size);
  else if (unnamed[0]?.length > 0) drawKey(ink, cases, ends[0] + size * 1.5, size * 1.55, size);
  if (panels.length === 0) appendText(ink, "No story to show.", { x: size, y: size * 2 });
}

/** The upright line of the second start: no words may stand across it. */
function markBox(check: Check, { x, plot }: OverlayLayout): Box[] {
  const start = secondStartOf(check);
  return start === null ? [] : [{ ...plot, left: x(start) - 3, right: x(start) + 3 }];
}

function spanOf(check: Check, { from_s = 0, to_s }: OverlayOptions) {
  const end = to_s ?? max(check.stories, (story) => story.duration_s) ?? 1;
  if (Number.isFinite(from_s) && Number.isFinite(end) && end > from_s) return { from_s, to_s: end };
  throw new RangeError(`invalid span: ${from_s} to ${end} s (expected an end after its start)`);
}

function secondStartOf(check: Check): number | null {
  return check.stories.find((story) => story.case === "staggered")?.delay_s ?? null;
}

function geometryOf(layout: OverlayLayout, mark: SVGGElement, time_s: number | null): OverlayGeometry {
  const { width, height, plot, x, panels } = layout;
  const shown = time_s !== null && mark.getAttribute("visibility") === "visible";
  return {
    width,
    height,
    plot,
    xScale: x.copy(),
    panels: panels.map(({ content, box, y }) => ({
      quantity: content.quantity,
      part: content.part,
      box,
      yScale: y.copy(),
    })),
    secondStart: shown ? { node: mark, x: x(time_s), time_s } : null,
  };
}
