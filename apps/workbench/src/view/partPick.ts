import { el, fill } from "../dom.ts";
import type { SessionStore } from "../state/session.ts";

export interface PartPick {
  /** Empty while there is nothing to choose between. */
  readonly root: HTMLElement;
  chosen(): string | null;
}

/** Which part of a kind a figure is about; the first until another is chosen. */
export function partPick(store: SessionStore, is: string, words: string): PartPick {
  const id = `pick-${is}`;
  const menu = el("select", { id });
  const root = el("p", { class: "look", hidden: true }, el("label", { for: id }, words), menu);
  let names: readonly string[] = [];
  const offer = (): void => {
    const parts = store.get().shown?.cabinet.circuit.parts ?? [];
    const next = parts.filter((part) => part.is === is).map((part) => part.name);
    if (next.join("\n") === names.join("\n")) return;
    const chosen = menu.value;
    names = next;
    fill(menu, ...names.map((name) => el("option", { value: name }, name)));
    if (names.includes(chosen)) menu.value = chosen;
    root.hidden = names.length < 2;
  };
  store.watch((now, before) => {
    if (now.shown?.cabinet !== before.shown?.cabinet) offer();
  });
  offer();
  menu.addEventListener("change", () => store.set({}));
  return { root, chosen: () => names[menu.selectedIndex] ?? null };
}
