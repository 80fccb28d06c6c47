/** A day: pressures, what runs when, how warm everything gets, and how near every start brings the fuses to melting. */

import type { DayReport } from "@startgap/study";
import { scaleLinear } from "d3";
import { axisTitle, type Box, levelAxis, levelGrid, type Tick, uprightAxis } from "./axes.ts";
import { append, appendText, type Page } from "./context.ts";
import { type DayCurve, type DayPanel, dayPanels } from "./dayPanels.ts";
import { space } from "./format.ts";
import { describe, type FigureOptions, frame, heightOf, resize } from "./frame.ts";
import { path, upright } from "./path.ts";
import { pathOf, polyline } from "./polyline.ts";
import { flowKey, keyHeight, styleOf } from "./series.ts";
import { type Panel, stack } from "./stack.ts";
import { drawSentences, sentenceLines, sentenceRoom, type TimeScale } from "./waveParts.ts";

/** Height of a panel of share 1, em. */
const PANEL_EM = 7.5;
/** Of a panel's heading above its key, em. */
const HEADING_EM = 2.2;

/**
 * A day as panels over its clock: pressures of receivers, when every motor runs, temperatures, and for every start how
 * far the fuses are on their way to melting, with what the air makes of their melting currents.
 *
 * @param page the document to draw in
 * @throws RangeError for a size that makes no figure
 */
export function dayFigure(page: Page, report: DayReport, options: FigureOptions = {}): SVGSVGElement {
  const { root, ink, width, size } = frame(page, options);
  const panels = dayPanels(report);
  const lines = sentenceLines(sentencesOf(report), width - size, size);
  const keyRooms = panels.map(({ curves }) => keyHeight(curves.map(nameOf), width - size, size));
  const foot = size * 3.6 + sentenceRoom(lines, size);
  const shares = panels.reduce((sum, { share }) => sum + share, 0);
  const above = keyRooms.reduce((sum, room) => sum + room + size * HEADING_EM, 0);
  const height = heightOf(options, above + shares * size * PANEL_EM + foot);
  const specs = panels.map(({ share, domain, curves }, i) => ({
    ...{ share, domain, above: keyRooms[i] + size * HEADING_EM },
    nice: curves[0].as !== "spans",
  }));
  const room = { right: width - size * 1.2, top: 0, bottom: height - foot, size };
  const { panels: stacked, plot } = stack(specs, room);
  const x = scaleLinear([0, report.hours], [plot.left, plot.right]);
  const ticks = hourTicks(x, size);
  const boxes = stacked.map(({ box }) => box);
  levelGrid(ink, boxes, ticks);
  panels.forEach((panel, i) => {
    const top = boxes[i].top - keyRooms[i];
    appendText(ink, panel.heading, { class: "heading", x: size * 0.5, y: top - size * 0.6 });
    flowKey(ink, keyOf(panel), size * 0.5, top - size * 0.3, width - size, size);
    drawPanel(ink, panel, stacked[i], x, size);
  });
  drawMelts(ink, report, boxes, x);
  levelAxis(ink, plot, ticks, size);
  axisTitle(ink, plot, "time of day, h", size, plot.bottom + size * 2.7);
  drawSentences(ink, lines, size * 0.5, plot.bottom + size * 3.2, size);
  resize(root, width, height);
  const title = `A ${report.season} day of ${report.title}`;
  describe(root, options.prefix, title, lines.join(" ").replaceAll(space, " "));
  return root;
}

const nameOf = ({ name }: DayCurve): string => name;

const keyOf = ({ curves }: DayPanel) => curves.map(({ name, style }) => ({ name, style, values: [] }));

const STEPS_h = [0.25, 0.5, 1, 2, 3, 6, 12, 24, 48];

/** Hours at the steps of a clock, as dense as their words allow. */
function hourTicks(x: TimeScale, size: number): Tick[] {
  const [, end] = x.domain();
  const [left, right] = x.range();
  const most = Math.max(2, (right - left) / (size * 3.5));
  const step = STEPS_h.find((one) => end / one <= most) ?? STEPS_h[STEPS_h.length - 1];
  const count = Math.floor(end / step + 1e-9);
  return Array.from({ length: count + 1 }, (_, k) => ({ at: x(k * step), text: `${k * step}` }));
}

function drawPanel(parent: SVGElement, { curves }: DayPanel, panel: Panel, x: TimeScale, size: number): void {
  const rows = curves.filter(({ as }) => as === "spans").length;
  if (rows === 0) uprightAxis(parent, panel.box, panel.ticks, size);
  curves.forEach((curve, k) => {
    if (curve.as === "spans") drawSpans(parent, curve, panel.box, k / rows, 1 / rows, x);
    else if (curve.as === "stems") drawStems(parent, curve, panel, x, size);
    else drawCurve(parent, curve, panel, x, size);
  });
}

const hours = (time_s: Float64Array): Float64Array => time_s.map((t) => t / 3600);

function drawCurve(parent: SVGElement, curve: DayCurve, panel: Panel, x: TimeScale, size: number): void {
  const [from, to] = x.domain();
  const column = { time_s: hours(curve.time_s), values: curve.values, first: 0 };
  const d = pathOf(polyline(column, from, to, x, panel.y));
  if (d !== "") append(parent, "path", { ...styleOf(curve.style, size), "stroke-width": size * 0.11, d });
}

function drawStems(parent: SVGElement, curve: DayCurve, panel: Panel, x: TimeScale, size: number): void {
  const base = panel.y(0);
  const d = Array.from(
    curve.time_s,
    (t, k) => path`M${x(t / 3600)},${base}V${panel.y(curve.values[k])}`,
  ).join("");
  if (d !== "") append(parent, "path", { ...styleOf(curve.style, size), "stroke-width": size * 0.11, d });
}

/** Filled from where the value becomes 1 to where it becomes 0, in one row of a box. */
function drawSpans(
  parent: SVGElement,
  { time_s, values, style }: DayCurve,
  box: Box,
  from: number,
  share: number,
  x: TimeScale,
): void {
  const tall = box.bottom - box.top;
  const [top, high] = [box.top + tall * (from + 0.15 * share), tall * share * 0.7];
  let [d, begun] = ["", Number.NaN];
  for (let k = 0; k < values.length; k += 1) {
    const t = x(time_s[k] / 3600);
    if (values[k] > 0 && Number.isNaN(begun)) begun = t;
    if (Number.isNaN(begun) || (values[k] > 0 && k < values.length - 1)) continue;
    if (t > begun) d += path`M${begun},${top}H${t}v${high}H${begun}z`;
    begun = Number.NaN;
  }
  const fill = (styleOf(style, 1).class.match(/part\d+/) ?? ["part1"])[0];
  if (d !== "") append(parent, "path", { class: `${fill}-fill`, d });
}

/** Where a fuse melts, through all panels. */
function drawMelts(parent: SVGElement, { fuses }: DayReport, boxes: readonly Box[], x: TimeScale): void {
  const d = fuses.flatMap(({ melted_s }) =>
    melted_s === null ? [] : boxes.map((box) => upright(x(melted_s / 3600), box)),
  );
  if (d.length > 0) append(parent, "path", { class: "fail-line", d: d.join("") });
}

/** The gravest three troubles, and what the fuses make of the day. */
function sentencesOf({ findings }: DayReport): string[] {
  const troubles = findings.filter(({ outcome }) => outcome !== "pass").slice(0, 3);
  const fuses = findings
    .filter((f) => f.finding === "fuse over the day" && !troubles.includes(f))
    .slice(0, 1);
  return [...troubles, ...fuses].map(({ says }) => says);
}
