import { el } from "./dom.ts";
import type { SessionStore } from "./state/session.ts";
import { delayMapView } from "./view/delayMapView.ts";
import { findingsView } from "./view/findings.ts";
import { storyView } from "./view/story.ts";

export function startPage(body: HTMLElement, store: SessionStore): void {
  body.append(
    el("header", { class: "top" }, el("h1", {}, "startgap")),
    el("main", { class: "builder" }, storyView(store), findingsView(store), delayMapView(store)),
  );
}
