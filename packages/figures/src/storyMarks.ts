/** What went wrong in a story, marked on its current: a fuse that melted, a contactor that dropped out. */

import type { Check, StoryEvent } from "@startgap/study";
import { append, appendText, appendTitle } from "./context.ts";
import { duration } from "./format.ts";
import type { OverlayLayout, OverlayPanel } from "./overlayLayout.ts";
import { caseWords } from "./overlayWords.ts";
import { valueAt } from "./readings.ts";

/** What is marked: all else is told by the curves themselves. */
const marked = ["melts", "drops out", "stalls", "trips"];

export function drawStoryMarks(parent: SVGElement, check: Check, layout: OverlayLayout): void {
  const panel = layout.panels.find(({ content }) => content.quantity === "current");
  if (panel === undefined) return;
  for (const curve of panel.content.curves) {
    const story = check.stories.find((candidate) => candidate.case === curve.case);
    let free = Number.NEGATIVE_INFINITY;
    for (const event of story?.events ?? []) {
      const x = layout.x(event.at_s);
      const value = valueAt(curve, event.at_s);
      if (!marked.includes(event.what) || value === null || x < free || !on(layout, event)) continue;
      free = x + layout.size * 5;
      drawMark(parent, panel, layout, event, x, value, curve.case);
    }
  }
}

function on(layout: OverlayLayout, { at_s }: StoryEvent): boolean {
  const [from, to] = layout.x.domain();
  return at_s >= from && at_s <= to;
}

function drawMark(
  parent: SVGElement,
  { y, factor, box }: OverlayPanel,
  { size }: OverlayLayout,
  event: StoryEvent,
  x: number,
  value: number,
  name: keyof typeof caseWords,
): void {
  const [at, r] = [y(value * factor), size * 0.4];
  const cross = `M${x - r},${at - r}l${2 * r},${2 * r}m0,${-2 * r}l${-2 * r},${2 * r}`;
  const mark = append(parent, "path", { class: "fail-line", d: rounded(cross) });
  appendTitle(mark, `${caseWords[name]}: ${event.part} ${event.what} at ${duration(event.at_s)}`);
  const left = x + size * 5 > box.right;
  appendText(parent, event.what, {
    class: "strong halo fail",
    "text-anchor": left ? "end" : "start",
    x: left ? x - size * 0.7 : x + size * 0.7,
    y: at + size * 0.35,
  });
}

/** Path data with its numbers cut to the tenth of a pixel. */
function rounded(d: string): string {
  return d.replace(/-?\d+\.\d+(e-?\d+)?/g, (number) => String(Math.round(Number(number) * 10) / 10));
}
