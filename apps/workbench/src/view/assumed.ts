import type { Assumption } from "@startgap/cabinet";
import { el, fill } from "../dom.ts";
import { inNextFrame } from "../frames.ts";
import type { SessionStore } from "../state/session.ts";
import { markTab } from "./tabs.ts";

/** Everything that the file did not state, and warnings that keep nothing from being run. */
export function assumedView(store: SessionStore): HTMLElement {
  const notes = el("ul", { class: "notes" });
  const body = el("tbody");
  const draw = inNextFrame(() => {
    const cabinet = store.get().shown?.cabinet;
    if (cabinet === undefined) return;
    fill(notes, ...cabinet.notes.map((note) => el("li", { dir: "auto" }, note)));
    fill(body, ...cabinet.assumptions.map(rowOf));
    markTab("assumed", String(cabinet.assumptions.length));
  });
  store.watch((now, before) => {
    if (now.shown?.cabinet !== before.shown?.cabinet) draw();
  });
  return el(
    "section",
    { class: "assumed", "aria-label": "What was assumed" },
    el(
      "p",
      { class: "soft" },
      "What the cabinet does not state, and what was taken instead. State it to do better.",
    ),
    notes,
    el(
      "div",
      { class: "scrolls", tabindex: 0, role: "region", "aria-label": "Assumptions" },
      el(
        "table",
        {},
        el(
          "thead",
          {},
          el("tr", {}, ...["Part", "What", "Taken", "Between"].map((one) => el("th", { scope: "col" }, one))),
        ),
        body,
      ),
    ),
  );
}

const rowOf = ({ part, what, value, range, grade, basis }: Assumption): HTMLElement =>
  el(
    "tr",
    {},
    el("td", { dir: "auto" }, part),
    el("td", {}, what, el("span", { class: "basis soft" }, `${grade}: ${basis}`)),
    el("td", {}, value),
    el("td", {}, range ?? "–"),
  );
