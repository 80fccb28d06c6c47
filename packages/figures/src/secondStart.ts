/** The second motor's start on the time axis: a line through the panels and a grip that a page can make a handle of. */

import { append, appendText, setAttributes } from "./context.ts";
import { setting } from "./format.ts";
import type { OverlayLayout } from "./overlayLayout.ts";
import { path, upright } from "./path.ts";
import { textWidth } from "./textWidth.ts";

/** Narrowest thing that a finger can be asked to meet, px. */
const reach = 44;

/** The mark's group: class "second-start", data-mark="second-start", data-time_s; it survives every update. */
export function secondStartMark(parent: SVGElement): SVGGElement {
  const group = append(parent, "g", { class: "second-start", "data-mark": "second-start" });
  append(group, "path", { class: "mark second-start-line" });
  append(group, "rect", { class: "reach second-start-reach" });
  append(group, "path", { class: "grip second-start-grip" });
  appendText(group, "", { class: "second-start-words" });
  return group;
}

/** Move the mark to a time, or hide it when there is none on the axis. */
export function moveSecondStart(group: SVGGElement, layout: OverlayLayout, time_s: number | null): void {
  const [from, to] = layout.x.domain();
  const shown = time_s !== null && time_s >= from && time_s <= to;
  setAttributes(group, { visibility: shown ? "visible" : "hidden", "data-time_s": time_s ?? "" });
  if (!shown || time_s === null) return;
  const { plot, size } = layout;
  const x = layout.x(time_s);
  setAttributes(group, { transform: path`translate(${x},0)` });
  const [line, area, grip, words] = [...group.children] as SVGElement[];
  setAttributes(line, {
    d: layout.panels.map(({ box }) => upright(0, box)).join(""),
  });
  setAttributes(area, {
    x: -reach / 2,
    y: plot.top,
    width: reach,
    height: plot.bottom - plot.top + size * 3.6,
  });
  setAttributes(grip, { d: gripPath(plot.bottom + size * 1.7, size) });
  placeWords(words, `second start ${setting(time_s)}`, x, layout);
}

/** A house with its roof on the axis: points at the time, and is broad enough to be seen. */
function gripPath(bottom: number, size: number): string {
  const [half, body] = [size * 0.55, size * 0.75];
  return path`M0,${bottom}l${half},${half}v${body}h${-2 * half}v${-body}Z`;
}

function placeWords(words: SVGElement, text: string, x: number, { plot, size }: OverlayLayout): void {
  const wide = textWidth(text, size, true);
  const fitsRight = x + size * 1.1 + wide <= plot.right + size;
  words.textContent = text;
  setAttributes(words, {
    class: "second-start-words strong",
    "text-anchor": fitsRight ? "start" : "end",
    x: fitsRight ? size * 1.1 : -size * 1.1,
    y: plot.bottom + size * 2.85,
  });
}
