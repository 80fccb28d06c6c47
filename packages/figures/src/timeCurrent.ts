/** A fuse's time-current band on logarithmic axes, with the starts that it must carry laid on it. */

import type { CaseName } from "@startgap/study";
import { type ScaleLogarithmic, scaleLog } from "d3";
import type { Box } from "./axes.ts";
import { append, appendText, type Page } from "./context.ts";
import { type CurvePoint, timeAt } from "./exceedance.ts";
import { amperes, duration } from "./format.ts";
import { describe, type FigureOptions, frame, heightOf, resize } from "./frame.ts";
import { logAxes } from "./logAxes.ts";
import { drawNamedCurves } from "./namedCurves.ts";
import { caseWords } from "./overlayWords.ts";
import { upright } from "./path.ts";
import { pathOf, type Stretch } from "./polyline.ts";
import { shorten, textWidth } from "./textWidth.ts";

export interface TimeCurrentInput {
  /** The fuse. */
  readonly part: string;
  /** Fast edge of the band: minimum melting. */
  readonly melt: readonly CurvePoint[];
  /** Slow edge: total clearing; null when it is not known. */
  readonly clearing: readonly CurvePoint[] | null;
  /** As `exceedance` gives them. */
  readonly starts: readonly { readonly case: CaseName; readonly points: readonly CurvePoint[] }[];
  /** Current through the fuse while a motor stalls; null when not known. */
  readonly stall_A: number | null;
}

interface Scales {
  readonly box: Box;
  readonly x: ScaleLogarithmic<number, number>;
  readonly y: ScaleLogarithmic<number, number>;
}

/**
 * The time-current plot of one fuse.
 *
 * @param page  the document to draw in
 * @throws RangeError for a width or height that makes no figure
 */
export function timeCurrent(page: Page, input: TimeCurrentInput, options: FigureOptions = {}): SVGSVGElement {
  const { root, ink, width, size } = frame(page, options);
  const height = heightOf(options, Math.min(width * 0.95, 300 + width * 0.25));
  const box = { left: size * 4, right: width - size * 1.3, top: size * 4.4, bottom: height - size * 3.4 };
  const scales = scalesOf(input, box);
  drawHeadings(ink, input.part, box, width, size);
  drawBand(ink, input, scales);
  logAxes(ink, box, scales.x, scales.y, size);
  drawStall(ink, input, scales, size);
  drawCurves(ink, input, scales, size);
  resize(root, width, height);
  describe(root, options.prefix, `Time-current plot of ${input.part}`, summaryOf(input));
  return root;
}

function drawHeadings(ink: SVGElement, part: string, box: Box, width: number, size: number): void {
  const name = shorten(part, width - size * 12, size, true);
  appendText(ink, `${name}: time against current`, { class: "heading", x: size * 0.5, y: size * 1.5 });
  appendText(ink, "time, s", { class: "soft", x: size * 0.5, y: size * 2.9 });
  appendText(ink, "current, A", {
    class: "soft",
    "text-anchor": "end",
    x: box.right,
    y: box.bottom + size * 2.9,
  });
}

function scalesOf({ melt, clearing, starts, stall_A }: TimeCurrentInput, box: Box): Scales {
  const edges = [...melt, ...(clearing ?? [])];
  const points = [...edges, ...starts.flatMap((start) => start.points)].filter(({ time_s }) => time_s > 0);
  const currents = [...points.map(({ current_A }) => current_A), ...(stall_A === null ? [] : [stall_A])];
  const times = points.map(({ time_s }) => Math.min(Math.max(time_s, shortest_s), longest_s));
  return {
    box,
    x: scaleLog([Math.min(...currents, 100) * 0.8, Math.max(...currents, 10) * 1.25], [box.left, box.right]),
    y: scaleLog(
      [decade(Math.min(...times, 1), Math.floor), decade(Math.max(...times, 1), Math.ceil)],
      [box.bottom, box.top],
    ),
  };
}

/** Shorter than a cycle and longer than three hours no fuse curve says much. */
const shortest_s = 0.01;
const longest_s = 10_000;

const decade = (value: number, round: (power: number) => number) => 10 ** round(Math.log10(value));

/** Points in px, cut to the axes in time. */
function stretchOf(points: readonly CurvePoint[], { x, y, box }: Scales): Stretch {
  const [from, to] = y.domain();
  const shown = points.filter(({ time_s, current_A }) => time_s > 0 && current_A > 0);
  const ordered = [...shown].sort((a, b) => a.current_A - b.current_A || b.time_s - a.time_s);
  return Float64Array.from(
    ordered.flatMap(({ current_A, time_s }) => [
      Math.min(Math.max(x(current_A), box.left), box.right),
      y(Math.min(Math.max(time_s, from), to)),
    ]),
  );
}

function drawBand(ink: SVGElement, { melt, clearing }: TimeCurrentInput, scales: Scales): void {
  if (clearing === null || clearing.length === 0 || melt.length === 0) return;
  const [fast, slow] = [stretchOf(melt, scales), stretchOf(clearing, scales)];
  const back = Array.from({ length: slow.length / 2 }, (_, i) => slow.length / 2 - 1 - i);
  const reversed = Float64Array.from(back.flatMap((i) => [slow[2 * i], slow[2 * i + 1]]));
  append(ink, "path", { class: "link", d: `${pathOf([Float64Array.of(...fast, ...reversed)])}Z` });
}

interface Named {
  readonly points: readonly CurvePoint[];
  readonly class: string;
  readonly words: string;
  readonly says: string;
}

/** The band's edges and the starts, each named beside its curve. */
function drawCurves(ink: SVGElement, input: TimeCurrentInput, scales: Scales, size: number): void {
  const curves: Named[] = [
    { points: input.melt, class: "edge", words: "", says: "minimum melting" },
    { points: input.clearing ?? [], class: "edge", words: "", says: "total clearing" },
    ...input.starts.map((start) => ({
      points: start.points,
      class: start.case,
      words: `${start.case}-words`,
      says: caseWords[start.case],
    })),
  ].filter(({ points }) => points.length > 1);
  const drawn = curves.map((curve) => ({ class: curve.class, stretches: [stretchOf(curve.points, scales)] }));
  const labels = curves.map(({ says, words }, curve) => {
    return {
      curve,
      says,
      class: words,
      about: partWay(drawn[curve].stretches[0], curves[curve].class === "edge" ? 0.7 : 0.5),
    };
  });
  const stall = input.stall_A === null ? [] : [stallBox(scales.x(input.stall_A), scales.box, size)];
  drawNamedCurves(ink, drawn, labels, scales.box, size, () => stall);
}

/** The point some part of the way along a curve. */
function partWay(stretch: Stretch, part: number): { x: number; y: number } {
  const i = 2 * Math.floor((stretch.length / 2 - 1) * part);
  return { x: stretch[i], y: stretch[i + 1] };
}

const stallBox = (x: number, box: Box, size: number): Box => ({
  left: x - 2,
  right: x + 2,
  top: box.top + size * 1.4,
  bottom: box.bottom,
});

/** An upright line at the stalled current, named at its top with the time it takes to melt the fuse. */
function drawStall(ink: SVGElement, input: TimeCurrentInput, { x, box }: Scales, size: number): void {
  if (input.stall_A === null) return;
  const at = x(input.stall_A);
  append(ink, "path", { class: "limit", d: upright(at, box) });
  const words = stallWords(input);
  const wide = textWidth(words, size, true);
  const left = at - wide - size * 0.5 >= box.left;
  appendText(ink, shorten(words, box.right - box.left, size, true), {
    class: "strong",
    "text-anchor": left ? "end" : "start",
    x: left ? at - size * 0.5 : Math.min(at + size * 0.5, box.right - wide),
    y: box.top - size * 0.4,
  });
}

function stallWords({ stall_A, melt, clearing }: TimeCurrentInput): string {
  if (stall_A === null) return "";
  const [first, last] = [timeAt(melt, stall_A), clearing === null ? null : timeAt(clearing, stall_A)];
  const when = [first, last].flatMap((time_s) => (time_s === null ? [] : [duration(time_s)]));
  const melts = when.length === 0 ? "" : `: opens after ${[...new Set(when)].join(" to ")}`;
  return `stalled ${amperes(stall_A)}${melts}`;
}

function summaryOf(input: TimeCurrentInput): string {
  const starts = input.starts.map(({ case: name, points }) => {
    const touch = points.find(
      ({ current_A, time_s }) => time_s >= (timeAt(input.melt, current_A) ?? Number.POSITIVE_INFINITY),
    );
    const verdict =
      touch === undefined ? "stays below the band" : `reaches the band at ${amperes(touch.current_A)}`;
    return `${caseWords[name]} ${verdict}.`;
  });
  const stall = input.stall_A === null ? [] : [`With a motor ${stallWords(input)}.`];
  return [...starts, ...stall].join(" ").replaceAll("\u00a0", " ");
}
