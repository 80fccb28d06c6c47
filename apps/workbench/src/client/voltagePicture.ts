import { type Overlay, overlay } from "@startgap/figures";
import type { CaseName, Check } from "@startgap/study";
import { el } from "../dom.ts";
import { adoptStyle } from "../figureStyle.ts";
import { inNextFrame, roomIn, watchWidth } from "../frames.ts";
import { delayShown_s } from "../state/delay.ts";
import type { SessionStore } from "../state/session.ts";
import { handleOn } from "../view/handle.ts";

export interface VoltagePicture {
  readonly root: HTMLElement;
  draw(check: Check, cases: readonly CaseName[], point: string, end_s: number): void;
  /** Moves the line that stands at the lamps' time. */
  moveLine(t: number): void;
}

/** The voltage before and after and nothing else, with the handle. */
export function voltagePicture(store: SessionStore): VoltagePicture {
  const root = el("div", { class: "stage" });
  const line = el("div", { class: "reading-line" });
  root.append(line);
  const handle = handleOn(root, store);
  let figure: Overlay | null = null;
  let time = 0;
  let again = (): void => undefined;
  const moveLine = (t: number): void => {
    time = t;
    if (figure === null) return;
    const { plot, xScale } = figure.geometry;
    line.style.transform = `translateX(${xScale(t).toFixed(1)}px)`;
    line.style.top = `${plot.top}px`;
    line.style.height = `${plot.bottom - plot.top}px`;
  };
  const draw: VoltagePicture["draw"] = (check, cases, point, end_s) => {
    again = () => draw(check, cases, point, end_s);
    const width = roomIn(root);
    if (width === 0) return;
    const size = { width, height: 320 };
    const options = {
      ...size,
      theme: "auto",
      prefix: "client-voltage",
      voltageIn: "V",
      point,
      to_s: end_s,
    } as const;
    const only = voltagesOf(check, cases);
    if (figure === null) {
      figure = overlay(document, only, options);
      root.prepend(adoptStyle(figure.node));
    } else figure.update(only, options);
    handle.place(figure.geometry, delayShown_s(store.get()));
    moveLine(time);
  };
  const place = inNextFrame(() => {
    if (figure !== null) handle.place(figure.geometry, delayShown_s(store.get()));
  });
  watchWidth(root, () => again());
  store.watch((now, before) => {
    if (now.moving_s !== before.moving_s || now.isLate) place();
  });
  return { root, draw, moveLine };
}

/** Panels with nothing to show are left out, so only the voltage remains. */
function voltagesOf(check: Check, cases: readonly CaseName[]): Check {
  const stories = check.stories
    .filter((story) => cases.includes(story.case))
    .map(({ traces, ...story }) => ({
      ...story,
      traces: { ...traces, columns: traces.columns.filter((column) => column.quantity === "voltage") },
    }));
  return { ...check, stories };
}
