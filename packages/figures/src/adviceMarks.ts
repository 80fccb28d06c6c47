/** The knee and the recommended delay, marked through the panels and named under the axis. */

import type { DelayAdvice } from "@startgap/study";
import type { Box } from "./axes.ts";
import { append, appendText } from "./context.ts";
import type { MapLayout } from "./delayMapLayout.ts";
import { setting } from "./format.ts";
import { path, upright } from "./path.ts";
import { spread } from "./spread.ts";
import { textWidth } from "./textWidth.ts";

interface Mark {
  readonly at: number;
  readonly says: string;
  readonly class: string;
}

function marksOf({ knee_s, recommended_s }: DelayAdvice, { x, plot }: MapLayout): Mark[] {
  const marks = [
    { time_s: knee_s, says: "knee", class: "limit" },
    { time_s: recommended_s, says: "set", class: "mark" },
  ];
  return marks.flatMap(({ time_s, says, class: kind }) => {
    if (time_s === null) return [];
    const mark = { at: x(time_s), says: `${says} ${setting(time_s)}`, class: kind };
    return mark.at >= plot.left && mark.at <= plot.right ? [mark] : [];
  });
}

/** @param base  the box whose lower edge is the axis */
export function drawAdvice(
  parent: SVGElement,
  advice: DelayAdvice,
  base: Box,
  layout: MapLayout,
  size: number,
): void {
  const marks = marksOf(advice, layout);
  const wishes = marks.map(({ at }) => at);
  const widths = marks.map(({ says }) => textWidth(says, size, true) + size);
  const centres = spread(wishes, widths, base.left - size * 2, base.right + size);
  const y = base.bottom + size * 3;
  marks.forEach(({ at, says, class: kind }, i) => {
    const through = layout.panels.map(({ box }) => upright(at, box)).join("");
    const d = through + leaderTo(at, base, centres[i], y, size);
    append(parent, "path", { class: kind, d });
    appendText(parent, says, { class: "strong", "text-anchor": "middle", x: centres[i], y });
  });
}

const leaderTo = (at: number, base: Box, middle: number, y: number, size: number) =>
  path`M${at},${base.bottom + size * 0.3}V${y - size * 1.4}L${middle},${y - size}`;
