import { type OverlayGeometry, type Reading, valuesAt } from "@startgap/figures";
import type { CaseName } from "@startgap/study";
import { el, fill, say, setAttributes } from "../dom.ts";
import { type SessionStore, setLook } from "../state/session.ts";
import { quantityWord, valueWord } from "../words.ts";

export interface ReadingLine {
  /** Line and table for the figure as it is now drawn. */
  show(geometry: OverlayGeometry): void;
  readonly root: HTMLElement;
}

const cases: readonly CaseName[] = ["one", "together", "staggered"];

/** A line across the figure that reads every curve at one time, worked by pointer or by a slider. */
export function readingLine(stage: HTMLElement, store: SessionStore): ReadingLine {
  const line = el("div", { class: "reading-line", hidden: true });
  stage.append(line);
  const slider = el("input", { type: "range", id: "reading", min: 0, step: 0.01, value: 0 });
  const time = el("output", { for: "reading" });
  const table = el("table", { class: "readings" });
  let geometry: OverlayGeometry | null = null;
  const show = (): void => {
    const { look, shown } = store.get();
    if (geometry === null || shown === null) return;
    const [from, to] = geometry.xScale.domain();
    const at_s = look.reading_s ?? from;
    setAttributes(slider, { min: from, max: to, step: (to - from) / 600 });
    if (document.activeElement !== slider) slider.value = String(at_s);
    say(time, `${at_s.toFixed(2)} s`);
    slider.setAttribute("aria-valuetext", `${at_s.toFixed(2)} seconds`);
    const inside = look.reading_s !== null && at_s >= from && at_s <= to;
    line.hidden = !inside;
    line.style.transform = `translateX(${geometry.xScale(at_s).toFixed(1)}px)`;
    line.style.top = `${geometry.plot.top}px`;
    line.style.height = `${geometry.plot.bottom - geometry.plot.top}px`;
    fillTable(table, valuesAt(shown.check, at_s, look.selection));
  };
  const setTo = (at_s: number): void => setLook(store, { reading_s: at_s });
  slider.addEventListener("input", () => setTo(slider.valueAsNumber));
  stage.addEventListener("pointermove", (event) => {
    if (geometry === null || event.pointerType === "touch" || event.buttons !== 0) return;
    const at_s = timeUnder(event, stage, geometry);
    if (at_s !== null) setTo(at_s);
  });
  stage.addEventListener("pointerdown", (event) => {
    const at_s = geometry === null ? null : timeUnder(event, stage, geometry);
    if (at_s !== null && !(event.target as Element).closest(".handle")) setTo(at_s);
  });
  store.watch((now, before) => {
    if (now.look.reading_s !== before.look.reading_s) show();
  });
  const label = el("label", { for: "reading" }, "Read the curves at");
  return {
    root: el("div", { class: "reading" }, el("div", { class: "reading-bar" }, label, slider, time), table),
    show(next) {
      geometry = next;
      show();
    },
  };
}

function timeUnder(
  event: PointerEvent,
  stage: HTMLElement,
  { plot, xScale }: OverlayGeometry,
): number | null {
  const box = stage.getBoundingClientRect();
  const [x, y] = [event.clientX - box.left, event.clientY - box.top];
  const inside = x >= plot.left && x <= plot.right && y >= plot.top && y <= plot.bottom;
  return inside ? xScale.invert(x) : null;
}

/** One row a quantity and part, one column a case. While these stay the same, only the words change. */
function fillTable(table: HTMLTableElement, readings: readonly Reading[]): void {
  const shown = cases.filter((name) => readings.some((reading) => reading.case === name));
  const rows = new Map<string, Reading[]>();
  for (const reading of readings) {
    const key = `${reading.quantity} ${reading.part}`;
    rows.set(key, [...(rows.get(key) ?? []), reading]);
  }
  const layout = [...shown, ...rows.keys()].join("|");
  if (table.dataset.layout !== layout) {
    table.dataset.layout = layout;
    const heads = shown.map((name) => el("th", { scope: "col" }, name));
    fill(
      table,
      el("thead", {}, el("tr", {}, el("td"), ...heads)),
      el("tbody", {}, ...[...rows.values()].map(([first]) => rowOf(first, shown))),
    );
  }
  const body = table.tBodies[0];
  [...rows.values()].forEach((row, i) => {
    shown.forEach((name, k) => {
      const reading = row.find((one) => one.case === name);
      say(body.rows[i].cells[k + 1], reading === undefined ? "" : valueWord(reading));
    });
  });
}

function rowOf(first: Reading, shown: readonly CaseName[]): HTMLElement {
  const cells = shown.map((name) => el("td", { class: name }));
  const head = el("th", { scope: "row" }, `${quantityWord[first.quantity]} `, el("bdi", {}, first.part));
  return el("tr", {}, head, ...cells);
}
