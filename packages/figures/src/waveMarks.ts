/** Marks over a wave: what a clamp meter reads, and what happened when. */

import type { ClampReading, StoryEvent } from "@startgap/study";
import type { Box } from "./axes.ts";
import { append, appendText } from "./context.ts";
import { path, upright } from "./path.ts";
import type { Panel } from "./stack.ts";
import { shorten, textWidth } from "./textWidth.ts";
import type { TimeScale } from "./waveParts.ts";

/** The window of a clamp meter as a band, and its reading as a line across it; nothing where it does not trigger. */
export function drawClamp(
  parent: SVGElement,
  { box, y }: Panel,
  x: TimeScale,
  { from_s, window_s, rms_A }: ClampReading,
): void {
  const [start, end] = x.domain();
  if (from_s === null || from_s >= end || from_s + window_s <= start) return;
  const left = x(Math.max(from_s, start));
  const right = x(Math.min(from_s + window_s, end));
  append(parent, "rect", {
    class: "link",
    x: left,
    y: box.top,
    width: right - left,
    height: box.bottom - box.top,
  });
  append(parent, "path", { class: "limit", d: path`M${left},${y(rms_A)}H${right}` });
}

/** Events whose moments are worth a line: what closes, opens, breaks away or melts. */
const told = /^(breaks away|closes|opens|pulls in|start switch (opens|closes)|melts|is connected)$/;

export function eventsIn(events: readonly StoryEvent[], from_s: number, to_s: number): StoryEvent[] {
  return events.filter(({ at_s, what }) => at_s >= from_s && at_s <= to_s && told.test(what));
}

/** Events beyond this many are chatter: lines alone, no words. */
const mostNamed = 40;

/** Lines through the boxes, and a name each in a strip above the first where there is room. */
export function drawEvents(
  parent: SVGElement,
  events: readonly StoryEvent[],
  boxes: readonly Box[],
  x: TimeScale,
  strip: number,
  size: number,
): void {
  const d = boxes.map((box) => events.map(({ at_s }) => upright(x(at_s), box)).join("")).join("");
  if (d !== "") append(parent, "path", { class: "rule", d });
  const [{ left, right }] = boxes;
  let free = left;
  for (const { at_s, part, what } of events.slice(0, mostNamed)) {
    const room = right - Math.max(free, x(at_s));
    const tail = ` ${what}`;
    const name = shorten(part, Math.min(size * 9, room - textWidth(tail, size)), size);
    const width = textWidth(name + tail, size);
    if (x(at_s) < free || width > room) continue;
    appendText(parent, name + tail, { class: "soft", x: x(at_s), y: strip });
    free = x(at_s) + width + size;
  }
}
