import { el, fill } from "../dom.ts";

export interface MenuLine {
  readonly words: string;
  readonly choose: () => void;
}

/**
 * A button that discloses lines to choose from. Made of plain buttons, since a list that acts on a change would act on
 * the first arrow key. Escape, a click elsewhere and leaving it by Tab close it.
 *
 * @param lines asked for whenever it is opened
 */
export function disclosedMenu(name: string, lines: () => readonly MenuLine[]): HTMLElement {
  const list = el("ul", { class: "menu-lines" });
  const summary = el("summary", {}, name);
  const root = el("details", { class: "menu" }, summary, list);
  const close = (): void => {
    root.open = false;
  };
  const lineOf = ({ words, choose }: MenuLine): HTMLElement => {
    const act = (): void => {
      close();
      summary.focus();
      choose();
    };
    return el("li", {}, el("button", { type: "button", dir: "auto", on: { click: act } }, words));
  };
  // Before it opens: whoever presses Tab at once finds the lines there.
  summary.addEventListener("click", () => {
    if (root.open) return;
    const offered = lines();
    if (offered.length === 0) fill(list, el("li", { class: "soft" }, "Nothing kept yet"));
    else fill(list, ...offered.map(lineOf));
  });
  root.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || !root.open) return;
    close();
    summary.focus();
  });
  root.addEventListener("focusout", ({ relatedTarget }) => {
    if (relatedTarget instanceof Node && !root.contains(relatedTarget)) close();
  });
  document.addEventListener("pointerdown", ({ target }) => {
    if (root.open && !root.contains(target as Node)) close();
  });
  return root;
}
