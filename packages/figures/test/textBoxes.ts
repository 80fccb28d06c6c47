/** Where the words of a figure stand, by the package's own estimate of their width. */

import { textWidth } from "../src/textWidth.ts";

export interface TextBox {
  readonly words: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const bold = /\b(strong|heading)\b/;

export function textBoxes(root: SVGSVGElement): TextBox[] {
  const size = Number(root.getAttribute("font-size"));
  const texts = [...root.querySelectorAll("text")].filter((text) => visible(text));
  return texts.map((text) => boxOf(text, size));
}

function visible(text: Element): boolean {
  return text.closest('[visibility="hidden"]') === null;
}

function boxOf(text: SVGTextElement, rootSize: number): TextBox {
  const size = Number(text.getAttribute("font-size") ?? rootSize);
  const words = text.firstChild?.nodeValue ?? "";
  const wide = textWidth(words, size, bold.test(text.getAttribute("class") ?? ""));
  const [dx, dy] = shiftOf(text.parentElement);
  const at = Number(text.getAttribute("x")) + dx;
  const y = Number(text.getAttribute("y")) + dy;
  const anchor = text.getAttribute("text-anchor") ?? "start";
  const left = anchor === "end" ? at - wide : anchor === "middle" ? at - wide / 2 : at;
  return { words, left, right: left + wide, top: y - size * 0.72, bottom: y + size * 0.2 };
}

function shiftOf(parent: Element | null): [number, number] {
  const match = /translate\(([-\d.]+),([-\d.]+)\)/.exec(parent?.getAttribute("transform") ?? "");
  return match === null ? [0, 0] : [Number(match[1]), Number(match[2])];
}
