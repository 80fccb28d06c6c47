/** Where the rows of a single-line sketch stand. */

import type { Verdict } from "@startgap/study";
import { isolated } from "./names.ts";
import type { SketchRow } from "./singleLineRows.ts";
import { textWidth, wrap } from "./textWidth.ts";

export interface Place {
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
/** em */
export const lineHeight = 1.3;

export function placed(rows: readonly SketchRow[], width: number, size: number): Place[] {
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

/** Of a symbol, px. */
export const radius = (size: number) => size * 0.95;
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
  return shown.map(({ outcome, says, part }) => ({
    verdict: outcome,
    lines: wrap(says, room, size * 0.95, 2).map((line) => line.replace(part, () => isolated(part))),
  }));
}
