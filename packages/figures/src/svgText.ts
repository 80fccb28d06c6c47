/** A figure as the text of a file that stands alone. */

import { resolvedStyleText, type Theme } from "./theme.ts";

const xmlns = "http://www.w3.org/2000/svg";

/**
 * A figure as standalone SVG: its colours written out, no reference to anything outside.
 *
 * @param node  as returned by any figure of this package; not changed
 */
export function svgText(node: SVGSVGElement): string {
  const theme = (/theme-(light|dark|auto)/.exec(node.getAttribute("class") ?? "")?.[1] ?? "light") as Theme;
  return `<?xml version="1.0" encoding="UTF-8"?>\n${elementText(node, theme, ` xmlns="${xmlns}"`)}\n`;
}

const elementNode = 1;
const textNode = 3;

function elementText(element: Element, theme: Theme, extra: string): string {
  const name = element.localName;
  const attributes = [...element.attributes]
    .filter(({ name: key }) => key !== "xmlns")
    .map(({ name: key, value }) => ` ${key}="${escaped(value)}"`);
  const open = `<${name}${extra}${attributes.join("")}`;
  const inside = name === "style" ? escaped(resolvedStyleText(theme)) : contentText(element, theme);
  return inside === "" ? `${open}/>` : `${open}>${inside}</${name}>`;
}

/** Children a line each, but for text, whose spaces count. */
function contentText(element: Element, theme: Theme): string {
  const words = element.localName === "text" || element.localName === "tspan";
  let out = "";
  for (const child of element.childNodes) {
    if (child.nodeType === textNode) out += escaped(child.nodeValue ?? "");
    if (child.nodeType === elementNode)
      out += `${words ? "" : "\n"}${elementText(child as Element, theme, "")}`;
  }
  return out;
}

const entities: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };

function escaped(text: string): string {
  return text.replace(/[&<>"]/g, (character) => entities[character]);
}
