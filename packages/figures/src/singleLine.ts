/** A sketch of the cabinet from the supply down, with what was found about every part. */

import type { Finding, Verdict } from "@startgap/study";
import { append, appendText, appendTitle, type Page } from "./context.ts";
import { describe, type FigureOptions, frame, heightOf, resize } from "./frame.ts";
import { path } from "./path.ts";
import { lineHeight, type Place, placed, radius } from "./singleLineLayout.ts";
import { type SketchPart, type SketchRow, sketchRows } from "./singleLineRows.ts";
import { drawBadge, drawSymbol } from "./symbols.ts";
import { shorten, textWidth } from "./textWidth.ts";

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
  const kind = kindWords(row);
  const at = { "font-size": size * 0.9, x: left, y: y + size * 1.25 };
  if (kind !== "") appendText(ink, shorten(kind, room, size * 0.9), { class: "soft", ...at });
  drawSentences(ink, place, size);
}

/** What a part is and which leg it hangs on; nothing that its name says already. */
function kindWords({ part, leg }: SketchRow): string {
  const kind = part.is === part.name ? [] : [part.is];
  return [...kind, ...(leg === null ? [] : [`${leg} leg`])].join(", ");
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
