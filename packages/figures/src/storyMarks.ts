/** What went wrong in a story, marked on its current: a fuse that melted, a contactor that dropped out. */

import type { Story, StoryEvent } from "@startgap/study";
import type { Box } from "./axes.ts";
import { append, appendTitle } from "./context.ts";
import { duration } from "./format.ts";
import type { Label } from "./namedCurves.ts";
import { printable } from "./names.ts";
import type { OverlayLayout, OverlayPanel } from "./overlayLayout.ts";
import { caseWords } from "./overlayWords.ts";
import { cross } from "./path.ts";
import { valueAt } from "./readings.ts";

/** What is marked: all else is told by the curves themselves. */
const marked = ["melts", "opens", "drops out", "stalls", "trips"];

/** A mark's words and where it stands; `tells` is the whole sentence. */
export interface StoryMark extends Label {
  readonly tells: string;
}

/** Marks of the current panel; what happens again before a mark could be told from the next is one mark. */
export function storyMarks(
  stories: readonly Story[],
  panel: OverlayPanel,
  layout: OverlayLayout,
): StoryMark[] {
  if (panel.content.quantity !== "current") return [];
  const [from, to] = layout.x.domain();
  return panel.content.curves.flatMap((curve, index) => {
    const events = stories.find((story) => story.case === curve.case)?.events ?? [];
    const shown = events.filter(({ what, at_s }) => marked.includes(what) && at_s >= from && at_s <= to);
    const runs = runsOf(shown, (event) => layout.x(event.at_s), layout.size * 3);
    return runs.flatMap((run) => {
      const value = valueAt(curve, run[0].at_s);
      if (value === null) return [];
      const about = { x: layout.x(run[0].at_s), y: panel.y(value * panel.factor) };
      return [
        {
          curve: index,
          says: saysOf(run),
          class: "fail",
          about,
          tells: `${caseWords[curve.case]}: ${tellsOf(run)}`,
        },
      ];
    });
  });
}

/** Events in runs of the same part and kind that follow each other within some px. */
function runsOf(
  events: readonly StoryEvent[],
  x: (event: StoryEvent) => number,
  near: number,
): StoryEvent[][] {
  const runs: StoryEvent[][] = [];
  for (const event of events) {
    const run = runs.findLast(([first]) => first.part === event.part && first.what === event.what);
    if (run !== undefined && x(event) - x(run[run.length - 1]) < near) run.push(event);
    else runs.push([event]);
  }
  return runs;
}

const saysOf = (run: readonly StoryEvent[]) =>
  run.length === 1 ? run[0].what : `${run[0].what} ${run.length} times`;

function tellsOf(run: readonly StoryEvent[]): string {
  const [first, last] = [duration(run[0].at_s), duration(run[run.length - 1].at_s)];
  const when = run.length === 1 ? `at ${first}` : `from ${first} to ${last}`;
  return `${printable(run[0].part)} ${saysOf(run)} ${when}`;
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
