/** What the figures of waves share: a wave with its rolling rms, and sentences beneath. */

import type { ScaleLinear } from "d3";
import { uprightAxis } from "./axes.ts";
import { append, appendText } from "./context.ts";
import { pathOf, polyline } from "./polyline.ts";
import { type Series, styleOf } from "./series.ts";
import type { Panel } from "./stack.ts";
import { wrap } from "./textWidth.ts";

export type TimeScale = ScaleLinear<number, number>;

/** Curves of the key, in the order in which they are drawn. */
export const waveKey: readonly Series[] = [
  { name: "instantaneous", values: [], style: null },
  { name: "rms of one cycle", values: [], style: 0 },
];

/** Highest magnitude of some values, at least a hair above nothing. */
export function highest(values: ArrayLike<number>): number {
  let most = 1e-3;
  for (let i = 0; i < values.length; i += 1) most = Math.max(most, Math.abs(values[i]));
  return most;
}

export interface WaveCurve {
  readonly values: Float64Array;
  readonly style: number | null;
  /** First sample that counts; 0 when silent. */
  readonly first?: number;
}

/** Draws curves of one panel over the time axis; peaks survive where points exceed pixels. */
export function drawWaves(
  parent: SVGElement,
  panel: Panel,
  x: TimeScale,
  time_s: Float64Array,
  curves: readonly WaveCurve[],
  size: number,
): void {
  uprightAxis(parent, panel.box, panel.ticks, size);
  const [from, to] = x.domain();
  for (const { values, style, first = 0 } of curves) {
    const d = pathOf(polyline({ time_s, values, first }, from, to, x, panel.y));
    if (d !== "") append(parent, "path", { ...styleOf(style, size), d });
  }
}

const lineHeight = 1.45;
const mostLines = 3;

/** Lines of sentences that fit a width. */
export function sentenceLines(sentences: readonly string[], width: number, size: number): string[] {
  return sentences.flatMap((sentence) => wrap(sentence, width, size, mostLines));
}

export const sentenceRoom = (lines: readonly string[], size: number): number =>
  lines.length * size * lineHeight;

export function drawSentences(
  parent: SVGElement,
  lines: readonly string[],
  left: number,
  top: number,
  size: number,
): void {
  lines.forEach((line, i) => {
    appendText(parent, line, { x: left, y: top + (i + 0.8) * size * lineHeight });
  });
}
