import { el } from "../dom.ts";

export interface Tab {
  readonly key: string;
  readonly title: string;
  readonly panel: HTMLElement;
}

/** Several panels in one place, one at a time; on paper all of them. */
export function tabsOf(name: string, tabs: readonly Tab[]): HTMLElement {
  const buttons = tabs.map(({ key, title }) =>
    el(
      "button",
      { type: "button", role: "tab", id: `tab-${key}`, "aria-controls": key },
      el("span", {}, title),
      " ",
      el("span", { class: "tab-mark" }),
    ),
  );
  const list = el("div", { class: "tabs", role: "tablist", "aria-label": name }, ...buttons);
  const panels = tabs.map(({ key, panel }) =>
    el("div", { role: "tabpanel", id: key, "aria-labelledby": `tab-${key}`, class: "tab-panel" }, panel),
  );
  const select = (chosen: number): void => {
    buttons.forEach((button, i) => {
      button.setAttribute("aria-selected", String(i === chosen));
      button.tabIndex = i === chosen ? 0 : -1;
      panels[i].classList.toggle("is-away", i !== chosen);
    });
  };
  buttons.forEach((button, i) => {
    button.addEventListener("click", () => select(i));
    button.addEventListener("keydown", (event) => {
      const to = steppedTo(event.key, i, buttons.length);
      if (to === null) return;
      event.preventDefault();
      select(to);
      buttons[to].focus();
    });
  });
  select(0);
  return el("div", { class: "tabbed" }, list, ...panels);
}

function steppedTo(key: string, from: number, count: number): number | null {
  if (key === "ArrowRight") return (from + 1) % count;
  if (key === "ArrowLeft") return (from + count - 1) % count;
  if (key === "Home") return 0;
  return key === "End" ? count - 1 : null;
}

export function selectTab(key: string): void {
  document.getElementById(`tab-${key}`)?.click();
}

/** A word behind the title of a tab: what waits there. */
export function markTab(key: string, words: string): void {
  const mark = document.querySelector(`#tab-${key} .tab-mark`);
  if (mark !== null && mark.textContent !== words) mark.textContent = words;
}
