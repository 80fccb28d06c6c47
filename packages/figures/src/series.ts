/** Curves of several parts: told apart by colour and dash, named at their ends or in a key. */

import type { Box } from "./axes.ts";
import { append, appendText, appendTitle } from "./context.ts";
import { partColours } from "./palette.ts";
import { path } from "./path.ts";
import { pathOf, polyline, type Scale, type Stretch } from "./polyline.ts";
import { spread } from "./spread.ts";
import { shorten, textWidth } from "./textWidth.ts";

export interface Series {
  readonly name: string;
  /** Over the shared axis; null where there is none. */
  readonly values: readonly (number | null)[];
  /** Which style; parts keep theirs from panel to panel. Null: faint. */
  readonly style: number | null;
}

/** Dashes in em; with the colours they repeat after 7 x 5 parts. */
const dashes = ["", "0.6 0.25", "0.18 0.25", "0.9 0.25 0.18 0.25", "0.35 0.2"];

/** Attributes that give a stroke the style of a part. */
export function styleOf(style: number | null, size: number) {
  if (style === null) return { class: "curve faint-curve" };
  const dash = dashes[style % dashes.length].split(" ").map((length) => Number(length) * size);
  return {
    class: `curve part${(style % partColours) + 1}`,
    "stroke-width": size * 0.16,
    "stroke-dasharray": dash[0] > 0 ? dash.map((length) => length.toFixed(1)).join(" ") : undefined,
  };
}

/** Draw curves over a shared axis of values `at`; returns their pixel stretches. */
export function drawSeries(
  parent: SVGElement,
  series: readonly Series[],
  at: readonly number[],
  x: Scale,
  y: Scale,
  size: number,
): Stretch[][] {
  return series.map((one) => {
    const values = one.values.map((value) => value ?? Number.NaN);
    const stretches = polyline({ time_s: at, values, first: 0 }, at[0], at[at.length - 1], x, y);
    const d = pathOf(stretches);
    if (d !== "") append(parent, "path", { ...styleOf(one.style, size), d });
    return stretches;
  });
}

/** Room to the right that names at the ends of curves take, px. */
export function endRoom(names: readonly string[], most: number, size: number): number {
  const widest = Math.max(0, ...names.map((name) => textWidth(name, size)));
  return Math.min(widest, most) + size * 2.6;
}

/** Names at the right ends of the curves, spread so that none touches another, each with a sample of its curve. */
export function nameEnds(
  parent: SVGElement,
  series: readonly Series[],
  box: Box,
  y: Scale,
  room: number,
  size: number,
): void {
  const wishes = series.map(({ values }) => y(values.findLast((value) => value !== null) ?? 0));
  const height = size * 1.2;
  const places = spread(
    wishes,
    wishes.map(() => height),
    box.top - height / 2,
    box.bottom + height / 2,
  );
  series.forEach(({ name, style }, i) => {
    const [from, to] = [box.right + size * 0.3, box.right + size * 1.9];
    const d = path`M${from},${wishes[i]}L${from + size * 0.5},${places[i]}H${to}`;
    append(parent, "path", { ...styleOf(style, size), d });
    nameAt(parent, name, to + size * 0.35, places[i] + size * 0.35, room - size * 2.6, size);
  });
}

function nameAt(parent: SVGElement, name: string, x: number, y: number, room: number, size: number): void {
  const short = shorten(name, room, size);
  const text = appendText(parent, short, { x, y });
  if (short !== name) appendTitle(text, name);
}

interface Slot {
  readonly x: number;
  readonly row: number;
  readonly short: string;
}

/** Where the entries of a key stand when they flow over as many rows as they need. */
function slots(names: readonly string[], width: number, size: number): Slot[] {
  let [x, row] = [0, 0];
  return names.map((name) => {
    const short = shorten(name, width - size * 2.4, size);
    const wide = size * 2.4 + textWidth(short, size);
    if (x > 0 && x + wide > width) [x, row] = [0, row + 1];
    const slot = { x, row, short };
    x += wide + size;
    return slot;
  });
}

const rowHeight = 1.4;

/** Height of a key that flows over a width, px. */
export function keyHeight(names: readonly string[], width: number, size: number): number {
  const rows = slots(names, width, size).map(({ row }) => row + 1);
  return Math.max(0, ...rows) * size * rowHeight;
}

/** A key that flows over a width. */
export function flowKey(
  parent: SVGElement,
  series: readonly Series[],
  left: number,
  top: number,
  width: number,
  size: number,
): void {
  const places = slots(
    series.map(({ name }) => name),
    width,
    size,
  );
  series.forEach(({ name, style }, i) => {
    const [x, y] = [left + places[i].x, top + places[i].row * size * rowHeight + size * 0.7];
    append(parent, "path", {
      ...styleOf(style, size),
      d: path`M${x},${y}h${size * 2}`,
    });
    const text = appendText(parent, places[i].short, { x: x + size * 2.4, y: y + size * 0.35 });
    if (places[i].short !== name) appendTitle(text, name);
  });
}
