/** Elements of the page. Words always go in as text: whatever a name holds, it never becomes markup. */

export type Child = Node | string | null | undefined | false;

type Listeners = { readonly [K in keyof HTMLElementEventMap]?: (event: HTMLElementEventMap[K]) => void };

export interface Attributes {
  readonly [name: string]: string | number | boolean | null | undefined | Listeners;
  readonly on?: Listeners;
}

/** An element with its attributes, listeners (`on`) and children; false and null are left out. */
export function el<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[K] {
  const element = document.createElement(tag);
  const { on, ...rest } = attributes;
  setAttributes(element, rest);
  for (const [type, listener] of Object.entries(on ?? {}))
    element.addEventListener(type, listener as EventListener);
  fill(element, ...children);
  return element;
}

export function setAttributes(
  element: Element,
  attributes: Readonly<Record<string, string | number | boolean | null | undefined | object>>,
): void {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) element.removeAttribute(name);
    else element.setAttribute(name, value === true ? "" : String(value));
  }
}

/** Replaces what an element holds. */
export function fill(element: Element, ...children: readonly Child[]): void {
  element.replaceChildren(
    ...children.filter((child) => child !== null && child !== undefined && child !== false),
  );
}

/** Replaces the words of an element, only when they differ: a page that says the same again lays nothing out. */
export function say(element: Element, words: string): void {
  if (element.textContent !== words) element.textContent = words;
}

let used = 0;
/** An id that no other element of the page has. */
export const freshId = (stem: string): string => `${stem}-${++used}`;
