/** How wide words are: estimated, since a page without a screen cannot measure text. */

import { isolated, printable } from "./names.ts";

/**
 * Advance widths in thousandths of the font size, characters 32 to 126, of the plain sans-serif face that the figures
 * ask for. Source: Adobe Font Metrics of Helvetica, which Arial and Liberation Sans share.
 */
const advance = [
  278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556,
  556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667, 611, 778, 722, 278,
  500, 667, 556, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469,
  556, 333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, 556, 556, 333, 500,
  278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
];

/** Other faces run wider than the table by a few percent: leave room. */
const allowance = 1.05;
const boldness = 1.06;

const joins = /[\p{M}\p{Cf}]/u;
const wide =
  /[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Hangul}\p{Extended_Pictographic}\uff01-\uff60]/u;

function advanceOf(character: string): number {
  const code = character.codePointAt(0)!;
  if (code >= 32 && code <= 126) return advance[code - 32];
  if (code === 0xa0) return 278;
  if (joins.test(character)) return 0;
  return wide.test(character) ? 1000 : 640;
}

/**
 * Estimated width of words in a line.
 *
 * @param size  font size in px
 * @returns width in px, erring on the wide side
 */
export function textWidth(words: string, size: number, bold = false): number {
  let sum = 0;
  for (const character of words) sum += advanceOf(character);
  return (sum / 1000) * size * allowance * (bold ? boldness : 1);
}

/** A name that fits a width: cut in the middle, since names often differ in their last letter. */
export function shorten(name: string, width: number, size: number, bold = false): string {
  return isolated(fitted(name, width, size, bold));
}

function fitted(words: string, width: number, size: number, bold: boolean): string {
  const whole = printable(words);
  if (textWidth(whole, size, bold) <= width + 0.01) return whole;
  const clusters = clustersOf(whole);
  let kept = Math.min(clusters.length - 1, Math.ceil(width / (size * 0.2)));
  while (kept > 1 && textWidth(cut(clusters, kept), size, bold) > width) kept -= 1;
  return cut(clusters, Math.max(kept, 1));
}

/** Letters with the marks that belong to them, so that a cut never parts them. */
function clustersOf(words: string): string[] {
  const clusters: string[] = [];
  for (const character of words) {
    const joined = clusters.length > 0 && joins.test(character);
    if (joined) clusters[clusters.length - 1] += character;
    else clusters.push(character);
  }
  return clusters;
}

function cut(clusters: readonly string[], kept: number): string {
  const head = Math.ceil(kept / 2);
  const tail = kept - head;
  return `${clusters.slice(0, head).join("").trimEnd()}\u2026${clusters
    .slice(clusters.length - tail)
    .join("")
    .trimStart()}`;
}

/** Words broken into lines of a width; a single word that is too long is shortened. */
export function wrap(words: string, width: number, size: number, lines: number): string[] {
  const out: string[] = [];
  let rest = printable(words)
    .split(/ +/)
    .filter((word) => word !== "");
  while (rest.length > 0 && out.length < lines) {
    const last = out.length === lines - 1;
    const count = last ? rest.length : fitting(rest, width, size);
    out.push(fitted(rest.slice(0, count).join(" "), width, size, false));
    rest = rest.slice(count);
  }
  return out;
}

function fitting(words: readonly string[], width: number, size: number): number {
  let count = 1;
  while (count < words.length && textWidth(words.slice(0, count + 1).join(" "), size) <= width) count += 1;
  return count;
}
