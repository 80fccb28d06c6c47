/**
 * The only place that touches a page's document: every element of every figure is made here, from the page
 * it is given, so the same code draws in a browser and under jsdom, and in several windows at once.
 */

/** The document in which a figure is drawn. */
export type Page = Document;

export type Attributes = Readonly<Record<string, string | number | null | undefined>>;

const svgNamespace = "http://www.w3.org/2000/svg";

/** An empty svg element of the given page. */
export function svgRoot(page: Page): SVGSVGElement {
  return page.createElementNS(svgNamespace, "svg");
}

/**
 * Append an svg element to a parent of any page.
 *
 * @param attributes  null and undefined are left out; numbers are written with two decimals at most
 * @throws RangeError if a number is not finite: nothing but numbers may reach a picture
 */
export function append<K extends keyof SVGElementTagNameMap>(
  parent: SVGElement,
  name: K,
  attributes: Attributes = {},
): SVGElementTagNameMap[K] {
  const element = parent.ownerDocument.createElementNS(svgNamespace, name);
  setAttributes(element, attributes);
  parent.appendChild(element);
  return element;
}

/** As `append` for a text element; the words are data, whatever they hold: markup in them stays words. */
export function appendText(parent: SVGElement, words: string, attributes: Attributes): SVGTextElement {
  const element = append(parent, "text", attributes);
  element.textContent = writable(words);
  return element;
}

/** Full words that a pointer resting on the element shows: for labels that had to be shortened. */
export function appendTitle(parent: SVGElement, words: string): void {
  append(parent, "title").textContent = writable(words);
}

export function setAttributes(element: SVGElement, attributes: Attributes): void {
  for (const name in attributes) {
    const value = attributes[name];
    if (value === null || value === undefined) continue;
    element.setAttribute(name, typeof value === "number" ? numberText(name, value) : writable(value));
  }
}

function numberText(name: string, value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`invalid ${name}: ${value} (expected a finite number)`);
  return String(Math.round(value * 100) / 100);
}

/** Characters that XML cannot carry: control characters, unpaired surrogates, the two noncharacters. */
const unwritable = /[\p{Cc}\p{Cs}\ufffe\uffff]/gu;

/** Words as they may stand in an svg file. */
function writable(words: string): string {
  return words.replace(unwritable, " ");
}
