import { whereTheVoltsGo } from "@startgap/figures";
import type { CaseName, Check } from "@startgap/study";
import { el, fill } from "../dom.ts";
import { adoptStyle } from "../figureStyle.ts";
import { inNextFrame, watchWidth } from "../frames.ts";
import { staggeredDelay_s } from "../state/delay.ts";
import type { Session, SessionStore } from "../state/session.ts";
import { adviceOf } from "../view/answer.ts";
import { seconds } from "../words.ts";
import { lampsView } from "./lamps.ts";
import { playerOf } from "./player.ts";
import { feltAt, pointsOf } from "./points.ts";
import { clientSentences } from "./sentences.ts";
import { voltagePicture } from "./voltagePicture.ts";

/** The same results for somebody who knows no symbols: sentences, two pictures and two lamps. */
export function clientView(store: SessionStore): HTMLElement {
  const words = el("div", { class: "client-words" });
  const pick = pointPick(store);
  const lamps = lampsView();
  const voltage = voltagePicture(store);
  const player = playerOf((t) => {
    lamps.light(t);
    voltage.moveLine(t);
  });
  const volts = el("div", { class: "stage" });
  let width = 0;
  /** The axis stays as it is while the handle is moved. */
  let end_s = 0;
  const draw = inNextFrame(() => {
    const session = store.get();
    const point = pick.chosen();
    if (session.view !== "client" || session.shown === null || point === null) return;
    const { check } = session.shown;
    if (session.moving_s === null || end_s === 0) end_s = endOf(check);
    const cases = compared(check);
    fill(words, ...sentencesOf(session, point, end_s));
    lamps.take(cases.flatMap((name) => lampStory(check, name, point, end_s)));
    voltage.draw(check, cases, point, end_s);
    player.setEnd(end_s);
    if (width > 0) fill(volts, adoptStyle(voltsFigure(check, cases, width)));
  });
  watchWidth(volts, (now) => {
    width = now;
    draw();
  });
  store.watch((now, before) => {
    if ((["view", "shown", "map", "moving_s"] as const).some((key) => now[key] !== before[key])) draw();
  });
  pick.root.addEventListener("change", draw);
  return el(
    "div",
    { class: "client" },
    card("client-words", "What happens when the motors start", "", pick.root, words),
    card("client-voltage", "The voltage, before and after", handleHint, voltage.root),
    card("client-lamps", "What the lamps do", lampHint, lamps.root, player.root),
    card("client-volts", "Where the volts go", voltsHint, volts),
  );
}

const handleHint =
  "The mark under the picture is the second motor's start: drag it, or move it with the arrow keys.";
const lampHint = "Filament lamps; others may dim less, flicker, or not show it at all.";
const voltsHint = "How many volts each part on the way takes at the worst moment.";

const card = (id: string, title: string, hint: string, ...children: readonly HTMLElement[]): HTMLElement =>
  el(
    "section",
    { class: "card", id, "aria-labelledby": `${id}-heading` },
    el("h2", { id: `${id}-heading` }, title),
    hint !== "" && el("p", { class: "soft" }, hint),
    ...children,
  );

const endOf = (check: Check): number => Math.max(...check.stories.map((story) => story.duration_s));

/** Before and after: what there is to compare. */
const compared = (check: Check): readonly CaseName[] =>
  staggeredDelay_s(check) === null ? ["one"] : ["together", "staggered"];

function sentencesOf(session: Session, point: string, end_s: number): HTMLElement[] {
  const { check } = session.shown!;
  const at = (name: CaseName) => feltAt(check, name, point, end_s);
  const one = at("one");
  if (one === null) return [];
  return clientSentences({
    point,
    one,
    together: at("together"),
    staggered: at("staggered"),
    advice: adviceOf(session),
  });
}

function lampStory(check: Check, name: CaseName, point: string, end_s: number) {
  const felt = feltAt(check, name, point, end_s);
  return felt === null
    ? []
    : [{ title: lampTitle(check, name), case: name, light: felt.light, dimmest: felt.dimmest }];
}

function lampTitle(check: Check, name: CaseName): string {
  if (name === "one") return "The motor starts";
  return name === "together" ? "All at once" : `Held back ${seconds(staggeredDelay_s(check) ?? 0)}`;
}

const voltsFigure = (check: Check, cases: readonly CaseName[], width: number): SVGSVGElement =>
  whereTheVoltsGo(
    document,
    check.report.cases.filter((one) => cases.includes(one.case)),
    { width, theme: "auto", prefix: "client-volts" },
  );

/** Which receptacle or lamp the client looks at. */
function pointPick(store: SessionStore) {
  const menu = el("select", { id: "client-point" });
  const root = el("p", { class: "look" }, el("label", { for: "client-point" }, "Looking at"), menu);
  let points: readonly string[] = [];
  const offer = (): void => {
    const check = store.get().shown?.check;
    const next = check === undefined ? [] : pointsOf(check);
    if (next.join("\n") === points.join("\n")) return;
    const chosen = menu.value;
    points = next;
    fill(menu, ...points.map((point) => el("option", { value: point }, point)));
    if (points.includes(chosen)) menu.value = chosen;
    root.hidden = points.length < 2;
  };
  store.watch((now, before) => {
    if (now.shown !== before.shown) offer();
  });
  offer();
  return { root, chosen: (): string | null => points[menu.selectedIndex] ?? null };
}
