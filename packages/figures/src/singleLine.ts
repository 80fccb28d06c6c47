/** A sketch of the cabinet from the supply down, with what was found about every part. */

import type { Finding, Verdict } from "@startgap/study";
import { append, appendText, appendTitle, type Page } from "./context.ts";
import { describe, type FigureOptions, frame, heightOf, resize } from "./frame.ts";
import { path } from "./path.ts";
import { type SketchPart, type SketchRow, sketchRows } from "./singleLineRows.ts";
import { drawBadge, drawSymbol } from "./symbols.ts";
import { shorten, textWidth, wrap } from "./textWidth.ts";

interface Place {
  readonly row: SketchRow;
  readonly x: number;
  readonly y: number;
  readonly height: number;
  /** Left edge of the words, px, and their room. */
  readonly left: number;
  readonly room: number;
  /** Left edge and first line of its findings, px. */
  readonly saysLeft: number;
  readonly saysTop: number;
  readonly sentences: readonly { readonly verdict: Verdict; readonly lines: readonly string[] }[];
}

/** From here on, px, findings stand beside the parts instead of beneath their names. */
const wide = 640;
const lineHeight = 1.3;

/**
 * A single-line sketch of a cabinet: every part with its symbol, and its findings by colour, badge and sentence.
 *
 * @param page      the document to draw in
 * @param parts     in any order; as the parts of a circuit
 * @param findings  those about no part of the list are left out
 * @throws RangeError for a width or height that makes no figure
 */
export function singleLine(
  page: Page,
  parts: readonly SketchPart[],
  findings: readonly Finding[],
  options: FigureOptions = {},
): SVGSVGElement {
  const { root, ink, width, size } = frame(page, options);
  const rows = sketchRows(parts, findings);
  const places = placed(rows, width, size);
  const last = places[places.length - 1];
  const bottom = last === undefined ? size * 2 : last.y + last.height - size;
  const height = heightOf(options, bottom + size * 2.6);
  for (const place of places) drawWire(ink, places, place);
  for (const place of places) drawRow(ink, place, size);
  drawKey(ink, size * 0.8, bottom + size * 1.4, size);
  resize(root, width, height);
  describe(root, options.prefix, "The cabinet as a single line", summaryOf(rows));
  return root;
}

function placed(rows: readonly SketchRow[], width: number, size: number): Place[] {
  const deepest = Math.max(0, ...rows.map(({ depth }) => depth));
  const step = Math.min(size * 2.4, (width * 0.3) / Math.max(deepest, 1));
  const r = radius(size);
  const beside = width >= wide;
  /** Where findings stand when they stand beside the parts. */
  const column = Math.min(width * 0.45, widest(rows, step, size) + r * 2 + size * 4);
  let y = r + size * 0.8;
  return rows.map((row) => {
    const x = r + size * 0.6 + row.depth * step;
    const left = x + r + size;
    const saysLeft = beside ? column : left;
    const saysTop = beside ? y + size * 0.05 : y + size * 2.5;
    const room = (beside ? column : width) - left - size;
    const sentences = sentencesOf(row, width - saysLeft - size, beside, size);
    const lines = beside ? Math.max(2, count(sentences)) : 2 + count(sentences);
    const height = (lines * lineHeight + 0.6) * size;
    const place = { row, x, y, height, left, room, saysLeft, saysTop, sentences };
    y += height;
    return place;
  });
}

/** Right edge of the widest name from the root's centre, px. */
function widest(rows: readonly SketchRow[], step: number, size: number): number {
  const ends = rows.map(
    ({ depth, part }) => depth * step + Math.max(textWidth(part.name, size, true), size * 9),
  );
  return Math.max(0, ...ends);
}

const radius = (size: number) => size * 0.95;
const count = (sentences: Place["sentences"]) => sentences.reduce((sum, { lines }) => sum + lines.length, 0);

/** Beside the parts the two gravest findings; beneath their names the gravest, unless it passes. */
function sentencesOf(
  { findings }: SketchRow,
  room: number,
  beside: boolean,
  size: number,
): Place["sentences"] {
  const shown = beside
    ? findings.slice(0, 2)
    : findings.slice(0, 1).filter(({ outcome }) => outcome !== "pass");
  return shown.map(({ outcome, says }) => ({ verdict: outcome, lines: wrap(says, room, size * 0.95, 2) }));
}

function drawWire(ink: SVGElement, places: readonly Place[], { row, x, y }: Place): void {
  if (row.parent === null) return;
  const above = places[row.parent];
  append(ink, "path", { class: "mark", d: path`M${above.x},${above.y}V${y}H${x}` });
}

function drawRow(ink: SVGElement, place: Place, size: number): void {
  const { row, x, y, left, room } = place;
  const verdict = row.findings[0]?.outcome;
  const r = radius(size);
  drawSymbol(ink, row.part.is, x, y, r, verdict === undefined ? "" : `${verdict}-stroke`);
  if (verdict !== undefined) drawBadge(ink, verdict, x + r * 0.85, y + r * 0.75, size * 0.5);
  const name = shorten(row.part.name, room, size, true);
  const text = appendText(ink, name, { class: "strong", x: left, y: y + size * 0.05 });
  if (name !== row.part.name) appendTitle(text, row.part.name);
  const kind =
    row.part.leg === undefined || row.part.leg === "both"
      ? row.part.is
      : `${row.part.is}, ${row.part.leg} leg`;
  const small = size * 0.9;
  appendText(ink, shorten(kind, room, small), {
    class: "soft",
    "font-size": small,
    x: left,
    y: y + size * 1.25,
  });
  drawSentences(ink, place, size);
}

function drawSentences(ink: SVGElement, { sentences, saysLeft, saysTop }: Place, size: number): void {
  let y = saysTop;
  for (const { verdict, lines } of sentences)
    for (const words of lines) {
      appendText(ink, words, { class: verdict, "font-size": size * 0.95, x: saysLeft, y });
      y += lineHeight * size;
    }
}

function drawKey(ink: SVGElement, left: number, y: number, size: number): void {
  let x = left;
  for (const verdict of ["pass", "caution", "fail"] as const) {
    drawBadge(ink, verdict, x, y, size * 0.5);
    appendText(ink, verdict, { class: "soft", x: x + size, y: y + size * 0.35 });
    x += size * 2.6 + textWidth(verdict, size);
  }
}

const verdictWords: Readonly<Record<Verdict, string>> = { pass: "Pass", caution: "Caution", fail: "Fail" };

function summaryOf(rows: readonly SketchRow[]): string {
  const graded = rows.filter(({ findings }) => findings.length > 0 && findings[0].outcome !== "pass");
  const chain = `${rows.length} parts from the supply down.`;
  return [
    chain,
    ...graded.map(({ findings }) => `${verdictWords[findings[0].outcome]}: ${findings[0].says}`),
  ].join(" ");
}
