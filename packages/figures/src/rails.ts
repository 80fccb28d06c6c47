/** Rows under the panels that say over which delays something holds: told by words and place, not colour. */

import type { DelayMap } from "@startgap/study";
import type { Box } from "./axes.ts";
import { append, appendText } from "./context.ts";
import { cross } from "./path.ts";
import type { Scale } from "./polyline.ts";
import { type Span, spansWhere } from "./spans.ts";
import { shorten, textWidth } from "./textWidth.ts";

export interface Rail {
  /** The part it is about; "" for all. */
  readonly part: string;
  readonly says: string;
  readonly kind: "pass" | "fail";
  readonly spans: readonly Span[];
}

const mostRails = 5;

/** The passing range first, then what goes wrong where; what goes wrong nowhere is left out. */
export function railsOf(map: DelayMap): Rail[] {
  const passing = spansWhere(map.delay_s, (i) => map.passes[i]);
  const wrong = [
    ...map.contactors.map(({ part, dropOuts }) => wrongRail(map, part, " drops out", (i) => dropOuts[i] > 0)),
    ...map.fuses.map(({ part, meltFraction }) =>
      wrongRail(map, part, ": melting", (i) => meltFraction[i] >= 1),
    ),
    ...map.motors.map(({ part, runUp_s }) =>
      wrongRail(map, part, " does not start", (i) => runUp_s[i] === null),
    ),
  ];
  const says = passing.length > 0 ? "everything passes" : "no delay passes";
  const first: Rail = { part: "", says, kind: "pass", spans: passing };
  return [first, ...wrong.filter(({ spans }) => spans.length > 0)].slice(0, mostRails);
}

function wrongRail(map: DelayMap, part: string, says: string, holds: (index: number) => boolean): Rail {
  return { part, says, kind: "fail", spans: spansWhere(map.delay_s, holds) };
}

/** Height of one row, em. */
export const railRow = 2.1;

export function drawRails(
  parent: SVGElement,
  rails: readonly Rail[],
  plot: Box,
  top: number,
  x: Scale,
  size: number,
): void {
  rails.forEach(({ part, says, kind, spans }, i) => {
    const y = top + (i + 1) * railRow * size - size * 0.4;
    const room = plot.right - plot.left - textWidth(says, size * 0.9);
    const words = shorten(part, room, size * 0.9) + says;
    appendText(parent, words, { class: "soft", "font-size": size * 0.9, x: plot.left, y: y - size * 0.6 });
    for (const { from, to } of spans) drawSpan(parent, kind, x(from), x(to), y, size);
  });
}

/** A passing span is a filled bar, a failing one a row of crosses. */
function drawSpan(
  parent: SVGElement,
  kind: Rail["kind"],
  from: number,
  to: number,
  y: number,
  size: number,
): void {
  const r = size * 0.2;
  if (kind === "pass") {
    append(parent, "rect", {
      class: "rail",
      x: from,
      y: y - r,
      width: Math.max(to - from, 2),
      height: 2 * r,
    });
    return;
  }
  const count = Math.max(0, Math.floor((to - from) / (size * 0.8)));
  const step = count === 0 ? 0 : (to - from) / count;
  const d = Array.from({ length: count + 1 }, (_, k) => cross(from + k * step, y, r)).join("");
  append(parent, "path", { class: "fail-line", d });
}
