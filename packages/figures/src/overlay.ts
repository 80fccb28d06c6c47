/** Voltage, current, speeds and fuse heating of every case, over one another on one time axis. */

import type { Check } from "@startgap/study";
import { max } from "d3";
import type { Box } from "./axes.ts";
import type { Page } from "./context.ts";
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
import { type Measured, withMeasured } from "./measured.ts";
import { morphChildren } from "./morph.ts";
import { drawPanels } from "./overlayDrawing.ts";
import { layoutOf, type OverlayLayout, wantedHeight } from "./overlayLayout.ts";
import { contentsOf, type Selection } from "./overlaySelection.ts";
import { overlaySummary } from "./overlayWords.ts";
import { moveSecondStart, secondStartMark } from "./secondStart.ts";
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
  /** Top to bottom; `yScale` takes a value times `factor`: percent, V, A, rpm. */
  readonly panels: readonly {
    readonly quantity: string;
    readonly part: string | null;
    readonly box: Box;
    readonly factor: number;
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
  const contents = withMeasured(contentsOf(check, options), options.measured ?? []);
  const inVolts = options.voltageIn === "V";
  const width = widthOf(options);
  const size = fontSize(width);
  const height = heightOf(options, wantedHeight(width, contents.length));
  const keyRoom = width < narrow ? size * 1.9 : 0;
  const layout = layoutOf(contents, spanOf(check, options), width, height, size, keyRoom, inVolts);
  const start = secondStartOf(check);
  const ink = shell.ink.cloneNode(false) as SVGGElement;
  drawPanels(ink, check.stories, layout, {
    inVolts,
    bands: options.bands ?? voltageBands,
    measured: options.measured ?? [],
    secondStart_s: start,
    keyed: keyRoom > 0,
  });
  morphChildren(shell.ink, ink);
  resize(shell.root, width, height);
  moveSecondStart(mark, layout, start);
  describe(
    shell.root,
    options.prefix,
    `Start of ${check.report.title}`,
    overlaySummary(check, contents, inVolts),
  );
  return geometryOf(layout, mark, start);
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
    panels: panels.map(({ content, box, factor, y }) => ({
      quantity: content.quantity,
      part: content.part,
      box,
      factor,
      yScale: y.copy(),
    })),
    secondStart: shown ? { node: mark, x: x(time_s), time_s } : null,
  };
}
