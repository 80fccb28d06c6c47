import type { Selection } from "@startgap/figures";
import type { Quantity } from "@startgap/study";
import { el, fill } from "../dom.ts";
import { type SessionStore, type Stretch, setLook } from "../state/session.ts";

const stretches: readonly { readonly key: Stretch; readonly words: string }[] = [
  { key: "all", words: "whole story" },
  { key: "first start", words: "first start" },
  { key: "second start", words: "second start" },
];

/** What the overlay shows: which voltage, which current, which stretch of time. */
export function lookBar(store: SessionStore): HTMLElement {
  const unit = el(
    "select",
    { "aria-label": "Unit of the voltage" },
    el("option", {}, "in %"),
    el("option", {}, "in V"),
  );
  unit.addEventListener("change", () => {
    setLook(store, { voltageIn: unit.selectedIndex === 0 ? "percent" : "V" });
  });
  const time = el("select", { id: "look-time" }, ...stretches.map(({ words }) => el("option", {}, words)));
  time.addEventListener("change", () => setLook(store, { stretch: stretches[time.selectedIndex].key }));
  return el(
    "div",
    { class: "look" },
    labelled("look-point", "Voltage at", partMenu(store, "voltage", "point", "the worst point"), unit),
    labelled("look-line", "Current through", partMenu(store, "current", "line", "the hottest fuse")),
    labelled("look-time", "Show", time),
  );
}

const labelled = (id: string, words: string, ...controls: readonly HTMLSelectElement[]): HTMLElement =>
  el("span", { class: "look-item" }, el("label", { for: id }, words), ...controls);

/** Parts that have a curve of one quantity; the first line leaves the choice to the figure. */
function partMenu(
  store: SessionStore,
  quantity: Quantity,
  key: "point" | "line",
  unchosen: string,
): HTMLSelectElement {
  const menu = el("select", { id: `look-${key}` });
  let offered: readonly string[] = [];
  const offer = (): void => {
    const story = store.get().shown?.check.stories[0];
    const columns = story?.traces.columns.filter((column) => column.quantity === quantity) ?? [];
    const parts = columns.map((column) => column.part);
    if (parts.join("\n") === offered.join("\n") && menu.options.length > 0) return;
    offered = parts;
    fill(menu, el("option", {}, unchosen), ...parts.map((part) => el("option", {}, part)));
    const chosen = parts.indexOf(store.get().look.selection[key] ?? "");
    menu.selectedIndex = chosen + 1;
    if (chosen < 0) choose(store, { [key]: undefined });
  };
  menu.addEventListener("change", () => choose(store, { [key]: offered[menu.selectedIndex - 1] }));
  store.watch((now, before) => {
    if (now.shown !== before.shown) offer();
  });
  offer();
  return menu;
}

function choose(store: SessionStore, change: Selection): void {
  setLook(store, { selection: { ...store.get().look.selection, ...change } });
}
