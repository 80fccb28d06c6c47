/** What every figure stands in: its size, its theme, its name for those who cannot see it. */

import { append, type Page, setAttributes, svgRoot } from "./context.ts";
import { printable } from "./names.ts";
import { styleText, type Theme } from "./theme.ts";

export interface FigureOptions {
  /** CSS pixels, 280 or more; default 800. */
  readonly width?: number;
  /** CSS pixels; default: what the content asks for. */
  readonly height?: number;
  /** Default "light". */
  readonly theme?: Theme;
  /**
   * Figures carry no ids unless given this: then title and description are "<prefix>-title" and "<prefix>-desc" and
   * the figure points to them.
   */
  readonly prefix?: string;
}

/** A figure about to be drawn: `ink` is the group to draw in, `size` the font size in px. */
export interface Frame {
  readonly root: SVGSVGElement;
  readonly ink: SVGGElement;
  readonly width: number;
  readonly size: number;
}

const narrowest = 280;
const lowest = 80;
const widest = 20_000;
const defaultWidth = 800;

/** Width asked for, checked. */
export function widthOf(options: FigureOptions): number {
  return inRange("width", options.width ?? defaultWidth, narrowest);
}

/** Height asked for, checked, or the height that the content asks for. */
export function heightOf(options: FigureOptions, wanted: number): number {
  return options.height === undefined
    ? Math.max(lowest, Math.round(wanted))
    : inRange("height", options.height, lowest);
}

function inRange(name: string, value: number, least: number): number {
  if (value >= least && value <= widest) return value;
  throw new RangeError(`invalid ${name}: ${value} (expected ${least} to ${widest} px)`);
}

/** 12 px up to a page's width, then growing with the square root of the width: posters are read from further away. */
export function fontSize(width: number): number {
  return Math.round(12 * Math.sqrt(Math.max(1, width / 900)) * 2) / 2;
}

/** An empty figure of a page: style, paper, names and a group for the ink. */
export function frame(page: Page, options: FigureOptions): Frame {
  const root = svgRoot(page);
  append(root, "title");
  append(root, "desc");
  append(root, "style").textContent = styleText();
  append(root, "rect", { class: "paper", width: "100%", height: "100%" });
  const ink = append(root, "g");
  const width = widthOf(options);
  const size = fontSize(width);
  setAttributes(root, {
    role: "img",
    class: `startgap-figure theme-${options.theme ?? "light"}`,
    "font-size": size,
  });
  return { root, ink, width, size };
}

/** Give a figure its final height. */
export function resize(root: SVGSVGElement, width: number, height: number): void {
  setAttributes(root, { width, height, viewBox: `0 0 ${Math.round(width)} ${Math.round(height)}` });
}

/** Name and describe a figure in plain sentences. */
export function describe(
  root: SVGSVGElement,
  prefix: string | undefined,
  title: string,
  summary: string,
): void {
  const [name, words] = [root.children[0] as SVGElement, root.children[1] as SVGElement];
  name.textContent = printable(title);
  words.textContent = printable(summary);
  if (prefix === undefined) return;
  setAttributes(name, { id: `${prefix}-title` });
  setAttributes(words, { id: `${prefix}-desc` });
  setAttributes(root, { "aria-labelledby": `${prefix}-title`, "aria-describedby": `${prefix}-desc` });
}
