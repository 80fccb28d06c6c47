/** A bar for every case that splits the lost volts of its worst moment among the parts that took them. */

import type { CaseReport } from "@startgap/study";
import { type ScaleLinear, scaleLinear } from "d3";
import { axisTitle, type Box, levelAxis, levelGrid, ticksOf } from "./axes.ts";
import { append, appendText, appendTitle, type Page } from "./context.ts";
import { duration, percent, tickTexts, volts } from "./format.ts";
import { describe, type FigureOptions, frame, heightOf, resize } from "./frame.ts";
import { isolated } from "./names.ts";
import { caseWords } from "./overlayWords.ts";
import { partColours } from "./palette.ts";
import { shorten, textWidth } from "./textWidth.ts";
import { type ShareColumn, type VoltShares, voltShares } from "./voltShares.ts";

/** Heights in em. */
const barHeight = 2.7;
const barRoom = 6.2;
const tableRow = 1.55;

/**
 * Where the volts go: one split bar a case, on a common scale of lost volts, with the voltage that is left, and a table
 * of the parts by number.
 *
 * @param page   the document to draw in
 * @param cases  those without a worst moment are left out
 * @throws RangeError for a width or height that makes no figure
 */
export function whereTheVoltsGo(
  page: Page,
  cases: readonly CaseReport[],
  options: FigureOptions = {},
): SVGSVGElement {
  const { root, ink, width, size } = frame(page, options);
  const shares = voltShares(cases);
  const [bars, table] = [shares.columns.length * barRoom * size, (shares.parts.length + 1) * tableRow * size];
  const height = heightOf(options, bars + table + size * 4.4);
  const plot = { left: size * 0.7, right: width - size * 1.3, top: 0, bottom: bars };
  const x = scaleLinear(domainOf(shares), [plot.left, plot.right]);
  const ticks = ticksOf(x, Math.max(2, (plot.right - plot.left) / (size * 6)), tickTexts);
  const boxes = shares.columns.map((_, i) => barBox(plot, i, size));
  levelGrid(ink, boxes, ticks);
  for (const [i, column] of shares.columns.entries()) drawBar(ink, shares.parts, column, boxes[i], x, size);
  if (shares.columns.length === 0) appendText(ink, "No case lost any voltage.", { x: size, y: size * 2 });
  else levelAxis(ink, plot, ticks, size);
  axisTitle(ink, plot, "volts lost on the way, V", size, plot.bottom + size * 2.7);
  drawTable(ink, shares, plot, plot.bottom + size * 4.4, size);
  resize(root, width, height);
  describe(root, options.prefix, "Where the volts go at the worst moment", summaryOf(shares));
  return root;
}

const barBox = (plot: Box, i: number, size: number): Box => {
  const top = (i * barRoom + barRoom - barHeight - 0.4) * size;
  return { ...plot, top, bottom: top + barHeight * size };
};

/** From the deepest rise (0 when there is none) to the largest loss. */
function domainOf({ columns }: VoltShares): [number, number] {
  const sums = columns.map(({ lost_V }) => ({
    up: lost_V.reduce((sum, lost) => sum + Math.min(lost, 0), 0),
    down: lost_V.reduce((sum, lost) => sum + Math.max(lost, 0), 0),
  }));
  return [Math.min(0, ...sums.map(({ up }) => up)), Math.max(1, ...sums.map(({ down }) => down))];
}

function drawBar(
  ink: SVGElement,
  parts: readonly string[],
  column: ShareColumn,
  box: Box,
  x: ScaleLinear<number, number>,
  size: number,
): void {
  drawBarHeading(ink, column, box, size);
  let [down, up] = [0, 0];
  column.lost_V.forEach((lost, i) => {
    const [from, to] = lost >= 0 ? [down, down + lost] : [up + lost, up];
    if (lost >= 0) down = to;
    else up = from;
    if (lost !== 0) drawSegment(ink, parts[i], i, lost, { ...box, left: x(from), right: x(to) }, size);
  });
}

function drawBarHeading(ink: SVGElement, { case: name, worst }: ShareColumn, box: Box, size: number): void {
  const left = `${caseWords[name]}: ${volts(worst.voltage_V)} left of ${volts(worst.nominal_V)}`;
  const share = ` (${percent(worst.voltage_V / worst.nominal_V)})`;
  appendText(ink, left + share, { class: "heading", x: size * 0.5, y: box.top - size * 1.7 });
  const when = `, ${duration(worst.at_s)} after the first start`;
  const room = box.right - size - textWidth(`at ${when}`, size * 0.9);
  const place = `at ${shorten(worst.point, room, size * 0.9)}${when}`;
  appendText(ink, place, { class: "soft", "font-size": size * 0.9, x: size * 0.5, y: box.top - size * 0.5 });
}

const numberOf = (i: number) => String(i + 1);
const fillOf = (i: number) => `part${(i % partColours) + 1}-fill`;

/** A segment says its part and volts where they fit, else its number, else nothing: the table tells. */
function drawSegment(ink: SVGElement, part: string, i: number, lost: number, box: Box, size: number): void {
  const wide = box.right - box.left;
  const rect = append(ink, "rect", {
    class: `segment ${fillOf(i)}`,
    x: box.left,
    y: box.top,
    width: Math.max(wide, 0.5),
    height: box.bottom - box.top,
  });
  appendTitle(rect, `${part}: ${volts(lost)}`);
  const [middle, room] = [(box.left + box.right) / 2, wide - size * 0.6];
  const label = `${numberOf(i)} ${isolated(part)}`;
  const lines = textWidth(label, size * 0.9, true) <= room ? [label, volts(lost)] : [numberOf(i)];
  if (textWidth(lines[0], size * 0.9, true) > room + size * 0.4) return;
  const first = (box.top + box.bottom) / 2 + size * (lines.length === 2 ? -0.2 : 0.33);
  lines.forEach((words, k) => {
    const at = { x: middle, y: first + k * size * 1.1, "font-size": size * 0.9 };
    appendText(ink, words, { class: "on-colour strong", "text-anchor": "middle", ...at });
  });
}

/** Numbers, parts and volts by case. */
function drawTable(
  ink: SVGElement,
  { parts, columns }: VoltShares,
  plot: Box,
  top: number,
  size: number,
): void {
  const words = columns.map(({ case: name }) => caseWords[name]);
  const step = Math.max(...words.map((word) => textWidth(word, size, true)), size * 3) + size * 0.8;
  const names = Math.max(0, ...parts.map((part) => textWidth(part, size)));
  const right = Math.min(plot.right, plot.left + size * 2.4 + names + step * columns.length);
  const ends = columns.map((_, c) => right - (columns.length - 1 - c) * step);
  words.forEach((word, c) => {
    appendText(ink, word, { class: "soft", "text-anchor": "end", x: ends[c], y: top });
  });
  parts.forEach((part, i) => {
    const y = top + (i + 1) * tableRow * size;
    drawSwatch(ink, i, plot.left, y, size);
    const short = shorten(part, (ends[0] ?? right) - size * 3.5 - plot.left - size * 2.1, size);
    const text = appendText(ink, short, { x: plot.left + size * 2.1, y });
    if (short !== part) appendTitle(text, part);
    columns.forEach(({ lost_V }, c) => {
      appendText(ink, volts(lost_V[i]), { "text-anchor": "end", x: ends[c], y });
    });
  });
}

function drawSwatch(ink: SVGElement, i: number, x: number, y: number, size: number): void {
  const side = size * 1.35;
  append(ink, "rect", { class: `segment ${fillOf(i)}`, x, y: y - size * 1.02, width: side, height: side });
  const at = { x: x + side / 2, y: y - size * 0.02, "font-size": size * 0.9 };
  appendText(ink, numberOf(i), { class: "on-colour strong", "text-anchor": "middle", ...at });
}

function summaryOf({ parts, columns }: VoltShares): string {
  const sentences = columns.map(({ case: name, worst, lost_V }) => {
    const largest = lost_V.indexOf(Math.max(...lost_V));
    const most = largest === -1 ? "" : `; ${parts[largest]} takes most, ${volts(lost_V[largest])}`;
    const lost = worst.nominal_V - worst.voltage_V;
    return `${caseWords[name]}: ${worst.point} keeps ${volts(worst.voltage_V)} of ${volts(worst.nominal_V)} and loses ${volts(lost)}${most}.`;
  });
  return sentences.join(" ").replaceAll("\u00a0", " ");
}
