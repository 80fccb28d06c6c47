/** The knee and the recommended delay, marked through the panels and named under the axis. */

import type { DelayAdvice } from "@startgap/study";
import type { Box } from "./axes.ts";
import { append, appendText } from "./context.ts";
import type { MapLayout } from "./delayMapLayout.ts";
import { setting } from "./format.ts";
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
    const through = layout.panels.map(({ box }) => line(at, box.top, at, box.bottom));
    const leader =
      line(at, base.bottom + size * 0.3, at, y - size * 1.4) + line(at, y - size * 1.4, centres[i], y - size);
    append(parent, "path", { class: kind, d: through.join("") + leader });
    appendText(parent, says, { class: "strong", "text-anchor": "middle", x: centres[i], y });
  });
}

const line = (...at: [number, number, number, number]) => {
  const [x0, y0, x1, y1] = at.map((value) => Math.round(value * 10) / 10);
  return `M${x0},${y0}L${x1},${y1}`;
};
