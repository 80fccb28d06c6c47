import { el } from "../dom.ts";
import { inNextFrame } from "../frames.ts";
import { change, endStep } from "../state/history.ts";
import type { SessionStore } from "../state/session.ts";

/** The cabinet file itself, for those who would rather type it, and for files that no form can show. */
export function fileText(store: SessionStore): HTMLElement {
  const area = el("textarea", {
    id: "file-text",
    rows: 24,
    spellcheck: false,
    autocomplete: "off",
    wrap: "off",
  });
  area.addEventListener("input", () =>
    change(store, { text: area.value }, { place: "file text", typing: true }),
  );
  area.addEventListener("change", endStep);
  const draw = inNextFrame(() => {
    const { text } = store.get();
    if (area.value !== text) area.value = text;
  });
  store.watch((now, before) => {
    if (now.text !== before.text) draw();
  });
  draw();
  return el(
    "div",
    { class: "file-text" },
    el("label", { for: "file-text" }, "Text of the cabinet file"),
    area,
  );
}
