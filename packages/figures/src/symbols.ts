/** Symbols of a single-line diagram, as electricians draw them, centred on a point. */

import { append } from "./context.ts";

type Path = (r: number) => string;

const circle = (r: number, dx = 0, dy = 0) =>
  `M${n(dx - r)},${n(dy)}a${n(r)},${n(r)} 0 1 0 ${n(2 * r)},0a${n(r)},${n(r)} 0 1 0 ${n(-2 * r)},0Z`;

const n = (value: number) => Math.round(value * 10) / 10;

/** Outlines that are filled with the paper. */
const outlines: Readonly<Record<string, Path>> = {
  supply: (r) => circle(r),
  fuse: (r) => `M${n(-r * 0.55)},${n(-r)}h${n(r * 1.1)}v${n(2 * r)}h${n(-r * 1.1)}Z`,
  transformer: (r) => circle(r * 0.62, 0, -r * 0.42) + circle(r * 0.62, 0, r * 0.42),
  autotransformer: (r) => circle(r),
  contactor: (r) => `M${n(-r)},${n(-r * 0.75)}h${n(2 * r)}v${n(1.5 * r)}h${n(-2 * r)}Z`,
  "delay relay": (r) => `M${n(-r)},${n(-r)}h${n(2 * r)}v${n(2 * r)}h${n(-2 * r)}Z`,
  motor: (r) => circle(r),
  load: (r) => `M${n(-r)},${n(-r * 0.8)}h${n(2 * r)}v${n(1.6 * r)}h${n(-2 * r)}Z`,
};

/** One turn of a winding that runs down. */
const winding = (r: number) => `a${n(r)},${n(r)} 0 0 1 0,${n(2 * r)}`;

/** Strokes within: a sine, a link, the tap of a winding, contacts, a clock's hands, an M, a zigzag. */
const details: Readonly<Record<string, Path>> = {
  supply: (r) => `M${n(-r * 0.55)},0q${n(r * 0.27)},${n(-r * 0.8)} ${n(r * 0.55)},0t${n(r * 0.55)},0`,
  cable: (r) => `M0,${n(-r)}v${n(2 * r)}M${n(-r * 0.5)},${n(r * 0.35)}l${n(r)},${n(-r * 0.7)}`,
  fuse: (r) => `M0,${n(-r)}v${n(2 * r)}`,
  transformer: (r) => circle(r * 0.62, 0, -r * 0.42),
  autotransformer: (r) =>
    `M0,${n(-r)}v${n(r * 0.25)}${winding(r * 0.25).repeat(3)}V${n(r)}M${n(r * 0.25)},0H${n(r)}`,
  contactor: (r) =>
    `M${n(-r * 0.3)},${n(-r * 0.45)}v${n(r * 0.9)}M${n(r * 0.3)},${n(-r * 0.45)}v${n(r * 0.9)}M${n(-r)},0h${n(r * 0.7)}M${n(r * 0.3)},0h${n(r * 0.7)}`,
  "delay relay": (r) => `${circle(r * 0.7)}M0,${n(-r * 0.45)}V0H${n(r * 0.35)}`,
  motor: (r) =>
    `M${n(-r * 0.45)},${n(r * 0.4)}v${n(-r * 0.8)}l${n(r * 0.45)},${n(r * 0.55)}l${n(r * 0.45)},${n(-r * 0.55)}v${n(r * 0.8)}`,
  load: (r) =>
    `M${n(-r * 0.7)},0l${n(r * 0.2)},${n(-r * 0.4)}l${n(r * 0.35)},${n(r * 0.8)}l${n(r * 0.35)},${n(-r * 0.8)}l${n(r * 0.35)},${n(r * 0.8)}l${n(r * 0.15)},${n(-r * 0.4)}`,
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
  const group = append(parent, "g", { transform: `translate(${n(x)},${n(y)})`, class: "symbol" });
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
  const group = append(parent, "g", { transform: `translate(${n(x)},${n(y)})`, class: "badge" });
  append(group, "path", { class: `plate ${verdict}`, d: plates[verdict](r) });
  append(group, "path", { class: "on-colour", d: signs[verdict](r) });
}

/** A disc, a triangle, a square on its corner. */
const plates: Readonly<Record<"pass" | "caution" | "fail", Path>> = {
  pass: (r) => circle(r),
  caution: (r) => `M0,${n(-r * 1.15)}L${n(r * 1.15)},${n(r * 0.85)}H${n(-r * 1.15)}Z`,
  fail: (r) => `M0,${n(-r * 1.4)}L${n(r * 1.4)},0L0,${n(r * 1.4)}L${n(-r * 1.4)},0Z`,
};

/** A tick, an exclamation mark, a cross. */
const signs: Readonly<Record<"pass" | "caution" | "fail", Path>> = {
  pass: (r) => `M${n(-r * 0.45)},0l${n(r * 0.32)},${n(r * 0.4)}l${n(r * 0.58)},${n(-r * 0.75)}`,
  caution: (r) => `M0,${n(-r * 0.45)}v${n(r * 0.6)}M0,${n(r * 0.5)}v${n(r * 0.08)}`,
  fail: (r) =>
    `M${n(-r * 0.3)},${n(-r * 0.3)}l${n(r * 0.6)},${n(r * 0.6)}m0,${n(-r * 0.6)}l${n(-r * 0.6)},${n(r * 0.6)}`,
};
