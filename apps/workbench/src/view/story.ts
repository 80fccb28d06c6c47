import { type Overlay, overlay } from "@startgap/figures";
import type { Check } from "@startgap/study";
import { el } from "../dom.ts";
import { adoptStyle } from "../figureStyle.ts";
import { inNextFrame, watchWidth } from "../frames.ts";
import { delayShown_s, staggeredDelay_s } from "../state/delay.ts";
import { isCurrent, type SessionStore, type Stretch } from "../state/session.ts";
import { handleOn } from "./handle.ts";
import { lookBar } from "./lookBar.ts";
import { readingLine } from "./reading.ts";

interface Span {
  readonly from_s: number;
  readonly to_s: number;
}

/** The cases laid over each other, with the second start as a handle on the time axis. */
export function storyView(store: SessionStore): HTMLElement {
  const stage = el("div", { class: "stage" });
  const waiting = el("p", { class: "soft waiting" }, "Working out the first start …");
  stage.append(waiting);
  const handle = handleOn(stage, store);
  const reading = readingLine(stage, store);
  const root = el(
    "section",
    { class: "card story", "aria-labelledby": "story-heading", id: "story" },
    el("h2", { id: "story-heading" }, "The start, case over case"),
    lookBar(store),
    stage,
    el(
      "p",
      { class: "soft hint" },
      "Drag the mark under the time axis, or focus it and press arrow keys (Shift for whole seconds).",
    ),
    reading.root,
  );
  let figure: Overlay | null = null;
  let width = 0;
  /** The axis stays as it is while the handle is moved. */
  let span: Span = { from_s: 0, to_s: 1 };
  const draw = inNextFrame(() => {
    const { shown, moving_s, look } = store.get();
    root.classList.toggle("is-stale", !isCurrent(store.get()));
    if (shown === null || width === 0) return;
    if (moving_s === null) span = spanOf(shown.check, look.stretch);
    const { selection, voltageIn } = look;
    const options = {
      width,
      theme: "auto",
      prefix: "story",
      voltageIn,
      ...emptySelection,
      ...selection,
      ...span,
    } as const;
    if (figure === null) {
      figure = overlay(document, shown.check, options);
      waiting.replaceWith(adoptStyle(figure.node));
      performance.mark("first picture");
    } else figure.update(shown.check, options);
    handle.place(figure.geometry, delayShown_s(store.get()));
    reading.show(figure.geometry);
  });
  const place = inNextFrame(() => {
    if (figure !== null) handle.place(figure.geometry, delayShown_s(store.get()));
  });
  watchWidth(stage, (now) => {
    width = now;
    draw();
  });
  store.watch((now, before) => {
    if (now.moving_s !== before.moving_s || now.isLate) place();
    const rests = (now.moving_s === null) !== (before.moving_s === null);
    const looks = now.look !== before.look && now.look.reading_s === before.look.reading_s;
    if (now.shown !== before.shown || now.text !== before.text || rests || looks) draw();
  });
  return root;
}

/** What is not chosen any more must not linger from an update before. */
const emptySelection = { point: undefined, line: undefined, fuse: undefined, motors: undefined };

const BEFORE_s = 0.5;
const SHORTEST_LOOK_s = 3;

function spanOf(check: Check, stretch: Stretch): Span {
  const end = Math.max(...check.stories.map((story) => story.duration_s));
  const delay_s = staggeredDelay_s(check) ?? 0;
  if (stretch === "first start") return { from_s: 0, to_s: Math.min(end, SHORTEST_LOOK_s) };
  if (stretch === "all") return { from_s: 0, to_s: end };
  const from_s = Math.max(0, delay_s - BEFORE_s);
  return { from_s, to_s: Math.min(end, from_s + SHORTEST_LOOK_s) };
}
