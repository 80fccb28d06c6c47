import { type Overlay, overlay } from "@startgap/figures";
import type { Check } from "@startgap/study";
import { el } from "../dom.ts";
import { adoptStyle } from "../figureStyle.ts";
import { inNextFrame, watchWidth } from "../frames.ts";
import { delayNow_s } from "../state/delay.ts";
import type { SessionStore } from "../state/session.ts";
import { handleOn } from "./handle.ts";

/** The cases laid over each other, with the second start as a handle on the time axis. */
export function storyView(store: SessionStore): HTMLElement {
  const stage = el("div", { class: "stage" });
  const empty = el("p", { class: "soft" }, "Working out the first start ...");
  stage.append(empty);
  let figure: Overlay | null = null;
  let width = 0;
  /** The end of the axis stays where it is while the handle is moved. */
  let end_s = 0;
  const handle = handleOn(stage, store);
  const draw = inNextFrame(() => {
    const { shown, moving_s } = store.get();
    if (shown === null || width === 0) return;
    if (moving_s === null) end_s = endOf(shown.check);
    const options = { width, to_s: end_s, theme: "auto", prefix: "story" } as const;
    if (figure === null) {
      figure = overlay(document, shown.check, options);
      empty.replaceWith(adoptStyle(figure.node));
    } else figure.update(shown.check, options);
    handle.place(figure.geometry, delayNow_s(store.get()));
  });
  watchWidth(stage, (now) => {
    width = now;
    draw();
  });
  store.watch((now, before) => {
    if (now.moving_s !== before.moving_s && figure !== null) handle.place(figure.geometry, delayNow_s(now));
    if (now.shown !== before.shown || (now.moving_s === null) !== (before.moving_s === null)) draw();
  });
  return el(
    "section",
    { class: "card story", "aria-labelledby": "story-heading", id: "story" },
    el("h2", { id: "story-heading" }, "The start, case over case"),
    stage,
  );
}

const endOf = (check: Check): number => Math.max(...check.stories.map((story) => story.duration_s));
