/** Symbols of a single-line diagram, as electricians draw them, centred on a point. */

import { append } from "./context.ts";
import { cross, path } from "./path.ts";

type Path = (r: number) => string;

const circle = (r: number, dx = 0, dy = 0) =>
  path`M${dx - r},${dy}a${r},${r} 0 1 0 ${2 * r},0a${r},${r} 0 1 0 ${-2 * r},0Z`;

/** Outlines that are filled with the paper. */
const outlines: Readonly<Record<string, Path>> = {
  supply: (r) => circle(r),
  fuse: (r) => path`M${-r * 0.55},${-r}h${r * 1.1}v${2 * r}h${-r * 1.1}Z`,
  transformer: (r) => circle(r * 0.62, 0, -r * 0.42) + circle(r * 0.62, 0, r * 0.42),
  autotransformer: (r) => circle(r),
  contactor: (r) => path`M${-r},${-r * 0.75}h${2 * r}v${1.5 * r}h${-2 * r}Z`,
  "delay relay": (r) => path`M${-r},${-r}h${2 * r}v${2 * r}h${-2 * r}Z`,
  motor: (r) => circle(r),
  load: (r) => path`M${-r},${-r * 0.8}h${2 * r}v${1.6 * r}h${-2 * r}Z`,
};

/** One turn of a winding that runs down. */
const winding = (r: number) => path`a${r},${r} 0 0 1 0,${2 * r}`;

/** Strokes within: a sine, a link, the tap of a winding, contacts, a clock's hands, an M, a zigzag. */
const details: Readonly<Record<string, Path>> = {
  supply: (r) => path`M${-r * 0.55},0q${r * 0.27},${-r * 0.8} ${r * 0.55},0t${r * 0.55},0`,
  cable: (r) => path`M0,${-r}v${2 * r}M${-r * 0.5},${r * 0.35}l${r},${-r * 0.7}`,
  fuse: (r) => path`M0,${-r}v${2 * r}`,
  transformer: (r) => circle(r * 0.62, 0, -r * 0.42),
  autotransformer: (r) => path`M0,${-r}v${r * 0.25}${winding(r * 0.25).repeat(3)}V${r}M${r * 0.25},0H${r}`,
  contactor: (r) =>
    path`M${-r * 0.3},${-r * 0.45}v${r * 0.9}M${r * 0.3},${-r * 0.45}v${r * 0.9}M${-r},0h${r * 0.7}M${r * 0.3},0h${r * 0.7}`,
  "delay relay": (r) => path`${circle(r * 0.7)}M0,${-r * 0.45}V0H${r * 0.35}`,
  motor: (r) =>
    path`M${-r * 0.45},${r * 0.4}v${-r * 0.8}l${r * 0.45},${r * 0.55}l${r * 0.45},${-r * 0.55}v${r * 0.8}`,
  load: (r) =>
    path`M${-r * 0.7},0l${r * 0.2},${-r * 0.4}l${r * 0.35},${r * 0.8}l${r * 0.35},${-r * 0.8}l${r * 0.35},${r * 0.8}l${r * 0.15},${-r * 0.4}`,
};

/**
 * Draw a part's symbol.
 *
 * @param is    kind of part; a kind that is not known is an empty box
 * @param kind  class of its strokes, by verdict
 */
export function drawSymbol(
  parent: SVGElement,
  is: string,
  x: number,
  y: number,
  r: number,
  kind: string,
): void {
  const known = Object.hasOwn(outlines, is) || Object.hasOwn(details, is);
  const group = append(parent, "g", { transform: path`translate(${x},${y})`, class: "symbol" });
  const outline = Object.hasOwn(outlines, is) ? outlines[is](r) : known ? "" : outlines["delay relay"](r);
  if (outline !== "") append(group, "path", { class: `outline ${kind}`, d: outline });
  if (Object.hasOwn(details, is)) append(group, "path", { class: `detail ${kind}`, d: details[is](r) });
}

/** A verdict's badge: told by its shape before its colour. */
export function drawBadge(
  parent: SVGElement,
  verdict: "pass" | "caution" | "fail",
  x: number,
  y: number,
  r: number,
): void {
  const group = append(parent, "g", { transform: path`translate(${x},${y})`, class: "badge" });
  append(group, "path", { class: `plate ${verdict}`, d: plates[verdict](r) });
  append(group, "path", { class: "on-colour", d: signs[verdict](r) });
}

/** A disc, a triangle, a square on its corner. */
const plates: Readonly<Record<"pass" | "caution" | "fail", Path>> = {
  pass: (r) => circle(r),
  caution: (r) => path`M0,${-r * 1.15}L${r * 1.15},${r * 0.85}H${-r * 1.15}Z`,
  fail: (r) => path`M0,${-r * 1.4}L${r * 1.4},0L0,${r * 1.4}L${-r * 1.4},0Z`,
};

/** A tick, an exclamation mark, a cross. */
const signs: Readonly<Record<"pass" | "caution" | "fail", Path>> = {
  pass: (r) => path`M${-r * 0.45},0l${r * 0.32},${r * 0.4}l${r * 0.58},${-r * 0.75}`,
  caution: (r) => path`M0,${-r * 0.45}v${r * 0.6}M0,${r * 0.5}v${r * 0.08}`,
  fail: (r) => cross(0, 0, r * 0.3),
};
