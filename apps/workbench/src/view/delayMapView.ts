import { delayMap, nominalsOf } from "@startgap/figures";
import { el, say } from "../dom.ts";
import { adoptStyle } from "../figureStyle.ts";
import { inNextFrame, watchWidth } from "../frames.ts";
import type { SessionStore } from "../state/session.ts";

/** What every delay would do. It belongs to the cabinet, so it is drawn anew only when that changes. */
export function delayMapView(store: SessionStore): HTMLElement {
  const stage = el("div", { class: "stage" });
  const note = el("p", { class: "soft" }, "Trying every delay ...");
  let width = 0;
  const draw = inNextFrame(() => {
    const { map, shown } = store.get();
    if (map === null || shown === null || width === 0) return;
    say(note, map.map === null ? "There is nothing to hold back." : "");
    if (map.map === null) stage.replaceChildren();
    else {
      const options = { width, theme: "auto", prefix: "delays", nominal_V: nominalsOf(shown.check) } as const;
      stage.replaceChildren(adoptStyle(delayMap(document, map.map, options)));
    }
  });
  watchWidth(stage, (now) => {
    width = now;
    draw();
  });
  store.watch((now, before) => {
    if (now.map !== before.map) draw();
  });
  return el(
    "section",
    { class: "card delays", "aria-labelledby": "delays-heading", id: "delays" },
    el("h2", { id: "delays-heading" }, "What every delay would do"),
    note,
    stage,
  );
}
