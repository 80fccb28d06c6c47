/** Axes: grid, ticks and their words. */

import { append, appendText } from "./context.ts";
import { level, path, upright } from "./path.ts";
import { textWidth } from "./textWidth.ts";

/** A rectangle of the figure, px. */
export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export interface Tick {
  readonly at: number;
  readonly text: string;
}

/** Ticks of any scale with words for each. */
export function ticksOf(
  scale: { (value: number): number; ticks(count: number): number[] },
  count: number,
  texts: (ticks: readonly number[]) => string[],
): Tick[] {
  const values = scale.ticks(count);
  const words = texts(values);
  return values.map((value, i) => ({ at: scale(value), text: words[i] }));
}

/** Room that the words of an upright axis take, px. */
export function tickRoom(ticks: readonly Tick[], size: number): number {
  return Math.max(0, ...ticks.map(({ text }) => textWidth(text, size))) + size * 0.5;
}

/** Level grid lines across the box, their words to its left. */
export function uprightAxis(parent: SVGElement, box: Box, ticks: readonly Tick[], size: number): void {
  const d = ticks.map(({ at }) => level(at, box)).join("");
  append(parent, "path", { class: "grid", d });
  for (const { at, text } of ticks)
    appendText(parent, text, {
      class: "soft",
      "text-anchor": "end",
      x: box.left - size * 0.5,
      y: at + size * 0.35,
    });
}

/** Upright grid lines through the boxes, ticks under the last one. */
export function levelGrid(parent: SVGElement, boxes: readonly Box[], ticks: readonly Tick[]): void {
  const d = boxes.map((box) => ticks.map(({ at }) => upright(at, box)).join(""));
  append(parent, "path", { class: "grid", d: d.join("") });
}

/** Base line of a box with ticks and words beneath; words that would touch are left out. */
export function levelAxis(parent: SVGElement, box: Box, ticks: readonly Tick[], size: number): void {
  const marks = ticks.map(({ at }) => path`M${at},${box.bottom}v${size * 0.35}`).join("");
  append(parent, "path", { class: "rule", d: level(box.bottom, box) + marks });
  let free = Number.NEGATIVE_INFINITY;
  for (const { at, text } of ticks) {
    const half = textWidth(text, size) / 2;
    if (at - half < free) continue;
    free = at + half + size * 0.6;
    appendText(parent, text, { class: "soft", "text-anchor": "middle", x: at, y: box.bottom + size * 1.35 });
  }
}

/** Words that name an axis, under its ticks. */
export function axisTitle(parent: SVGElement, box: Box, words: string, size: number, y: number): void {
  appendText(parent, words, { class: "soft", "text-anchor": "end", x: box.right, y, "font-size": size });
}
