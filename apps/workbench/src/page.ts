import { el } from "./dom.ts";
import { cabinetEditor } from "./editor/cabinetEditor.ts";
import { inNextFrame } from "./frames.ts";
import { placesForLater } from "./laterPlaces.ts";
import { takeDrops } from "./state/files.ts";
import type { SessionStore } from "./state/session.ts";
import { answerView } from "./view/answer.ts";
import { assumedView } from "./view/assumed.ts";
import { cautions } from "./view/cautions.ts";
import { fileText } from "./view/fileText.ts";
import { findingsView } from "./view/findings.ts";
import { notices } from "./view/notices.ts";
import { storyView } from "./view/story.ts";
import { tabsOf } from "./view/tabs.ts";
import { toolbar } from "./view/toolbar.ts";

/** The whole page: one head, and under it what the builder works with or what the client is shown. */
export function startPage(body: HTMLElement, store: SessionStore): void {
  const title = el("p", { class: "title", dir: "auto" });
  const { figures, client } = placesForLater(store);
  const builder = builderView(store, figures);
  const main = el("main", { id: "main", tabindex: -1 }, builder, client);
  body.append(
    el(
      "a",
      { class: "skip", href: "#main", on: { click: (event) => skipTo(event, main) } },
      "Skip to the figures",
    ),
    el("header", { class: "top" }, el("h1", {}, "startgap"), title, toolbar(store)),
    cautions(),
    notices(store),
    main,
    el(
      "footer",
      { class: "soft" },
      "Everything is worked out in this browser; nothing leaves it. What you type is kept here between visits.",
    ),
  );
  takeDrops(store, document.documentElement);
  const show = inNextFrame(() => {
    const { shown, view } = store.get();
    builder.hidden = view === "client";
    client.hidden = view !== "client";
    title.textContent = shown?.cabinet.title ?? "";
    title.title = title.textContent;
    document.title = shown === null ? "startgap workbench" : `${shown.cabinet.title} · startgap`;
  });
  store.watch((now, before) => {
    if (now.view !== before.view || now.shown?.cabinet !== before.shown?.cabinet) show();
  });
  show();
}

function builderView(store: SessionStore, figures: HTMLElement): HTMLElement {
  return el(
    "div",
    { class: "builder" },
    answerView(store),
    el(
      "div",
      { class: "upper" },
      storyView(store),
      el(
        "section",
        { class: "card", "aria-label": "Findings and cabinet" },
        tabsOf("Findings and cabinet", [
          { key: "findings", title: "Findings", panel: findingsView(store) },
          { key: "cabinet", title: "Cabinet", panel: cabinetEditor(store) },
          { key: "assumed", title: "Assumed", panel: assumedView(store) },
          { key: "file", title: "File", panel: fileText(store) },
        ]),
      ),
    ),
    figures,
  );
}

/** The fragment of the address belongs to shared cabinets, so the way to the figures does not go through it. */
function skipTo(event: MouseEvent, main: HTMLElement): void {
  event.preventDefault();
  main.focus();
}
