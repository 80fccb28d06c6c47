import { svgText } from "@startgap/figures";
import { el, fill } from "../dom.ts";
import { adoptStyle } from "../figureStyle.ts";
import { inNextFrame, watchSight, watchWidth } from "../frames.ts";
import { handOver, slugOf } from "../state/files.ts";
import { isCurrent, type Session, type SessionStore } from "../state/session.ts";

/** How a figure is to be drawn on this page. */
export interface Canvas {
  readonly width: number;
  readonly theme: "auto" | "light";
  readonly prefix?: string;
}

export interface FigureCard {
  readonly id: string;
  readonly title: string;
  /** A line under the heading. */
  readonly says?: string;
  /** Shown above the figure. */
  readonly controls?: HTMLElement;
  /** What the figure is made from: it is drawn anew when this differs. */
  readonly from: (session: Session) => unknown;
  /** What is laid over the figure, in its stage; told whenever something on the page changed. */
  readonly over?: (stage: HTMLElement) => (session: Session, canvas: Canvas) => void;
  /** The figure, or words that say why there is none. */
  readonly draw: (session: Session, canvas: Canvas) => SVGSVGElement | string;
}

/** A figure with its heading; it can be saved as a picture that stands alone. */
export function figureCard(store: SessionStore, card: FigureCard): HTMLElement {
  const picture = el("div");
  const stage = el("div", { class: "stage" }, picture);
  const placeOver = card.over?.(stage);
  const save = el("button", { type: "button", class: "small" }, "Save picture");
  save.setAttribute("aria-label", `Save picture: ${card.title}`);
  const root = el(
    "section",
    { class: `card figure ${card.id}`, id: card.id, "aria-labelledby": `${card.id}-heading` },
    el("div", { class: "card-head" }, el("h2", { id: `${card.id}-heading` }, card.title), save),
    card.says !== undefined && el("p", { class: "soft" }, card.says),
    card.controls,
    stage,
  );
  let width = 0;
  let drawn: { readonly from: unknown; readonly width: number } | null = null;
  const drawNow = (): void => {
    const session = store.get();
    root.classList.toggle("is-stale", session.shown !== null && !isCurrent(session));
    if (session.shown === null || width === 0 || !inSight()) return;
    const canvas = { width, theme: "auto", prefix: card.id } as const;
    placeOver?.(session, canvas);
    const from = card.from(session);
    if (drawn !== null && drawn.width === width && sameParts(drawn.from, from)) return;
    drawn = { from, width };
    const figure = card.draw(session, canvas);
    save.hidden = typeof figure === "string";
    fill(picture, typeof figure === "string" ? el("p", { class: "soft" }, figure) : adoptStyle(figure));
  };
  const draw = inNextFrame(drawNow);
  const inSight = watchSight(root, drawNow);
  save.addEventListener("click", () => {
    const figure = card.draw(store.get(), { width: 800, theme: "light" });
    if (typeof figure === "string") return;
    handOver(new Blob([svgText(figure)], { type: "image/svg+xml" }), `${slugOf(card.title)}.svg`);
  });
  watchWidth(stage, (now) => {
    width = now;
    draw();
  });
  store.watch(draw);
  return root;
}

/** Sources may be a list of several things. */
function sameParts(a: unknown, b: unknown): boolean {
  if (!Array.isArray(a) || !Array.isArray(b)) return a === b;
  return a.length === b.length && a.every((one, i) => one === b[i]);
}
