/** What went wrong in a story, marked on its current: a fuse that melted, a contactor that dropped out. */

import type { Story, StoryEvent } from "@startgap/study";
import type { Box } from "./axes.ts";
import { append, appendTitle } from "./context.ts";
import { duration } from "./format.ts";
import type { Label } from "./namedCurves.ts";
import type { OverlayLayout, OverlayPanel } from "./overlayLayout.ts";
import { caseWords } from "./overlayWords.ts";
import { cross } from "./path.ts";
import { valueAt } from "./readings.ts";

/** What is marked: all else is told by the curves themselves. */
const marked = ["melts", "drops out", "stalls", "trips"];

/** A mark's words and where it stands; `tells` is the whole sentence. */
export interface StoryMark extends Label {
  readonly tells: string;
}

/** Marks of the current panel, far enough apart to be told from each other; none in other panels. */
export function storyMarks(
  stories: readonly Story[],
  panel: OverlayPanel,
  layout: OverlayLayout,
): StoryMark[] {
  if (panel.content.quantity !== "current") return [];
  return panel.content.curves.flatMap((curve, index) => {
    const story = stories.find((candidate) => candidate.case === curve.case);
    let free = Number.NEGATIVE_INFINITY;
    return (story?.events ?? []).flatMap((event) => {
      const [x, value] = [layout.x(event.at_s), valueAt(curve, event.at_s)];
      if (!marked.includes(event.what) || value === null || x < free || !shows(layout, event)) return [];
      free = x + layout.size * 3;
      const tells = `${caseWords[curve.case]}: ${event.part} ${event.what} at ${duration(event.at_s)}`;
      return [
        {
          curve: index,
          says: event.what,
          class: "fail",
          about: { x, y: panel.y(value * panel.factor) },
          tells,
        },
      ];
    });
  });
}

function shows(layout: OverlayLayout, { at_s }: StoryEvent): boolean {
  const [from, to] = layout.x.domain();
  return at_s >= from && at_s <= to;
}

/** The marks themselves, which no words may cover. */
export function markBoxes(marks: readonly StoryMark[], size: number): Box[] {
  const r = size * 0.5;
  return marks.map(({ about: { x, y } }) => ({ left: x - r, right: x + r, top: y - r, bottom: y + r }));
}

export function drawStoryMarks(parent: SVGElement, marks: readonly StoryMark[], size: number): void {
  for (const { about, tells } of marks) {
    const d = cross(about.x, about.y, size * 0.4);
    appendTitle(append(parent, "path", { class: "fail-line", d }), tells);
  }
}
