import type { CaseName } from "@startgap/study";
import { el, fill, say, setAttributes } from "../dom.ts";
import { inNextFrame } from "../frames.ts";
import { staggeredDelay_s } from "../state/delay.ts";
import type { SessionStore } from "../state/session.ts";
import { type Stretch, typedWindow, type Wanted, windowOf } from "../wave/wanted.ts";
import { type WaveWork, waveWork } from "../wave/waveWork.ts";
import { caseTitle } from "../words.ts";
import { figureCard } from "./figureCard.ts";

/** Voltage and current of one part over a short stretch, wave by wave, as a scope would show them. */
export function waveCard(store: SessionStore): HTMLElement {
  const nudge = inNextFrame(() => store.set({}));
  const work = waveWork(store, nudge);
  const controls = controlsOf(store, work);
  const card = figureCard(store, {
    id: "wave",
    title: "Cycle by cycle",
    says: "Voltage and current of a short stretch, wave by wave: what a scope and a clamp meter would show.",
    controls: controls.root,
    from: () => [work.state().told, controls.part()],
    draw(_, canvas) {
      const { told } = work.state();
      if (told === null) return "Choose a stretch, and it is followed from the first start on.";
      return told.draw(document, told.study, { ...canvas, part: controls.part() ?? undefined });
    },
  });
  store.watch(() => {
    const { isStale, told } = work.state();
    card.classList.toggle("is-older", isStale && told !== null);
  });
  return card;
}

interface Controls {
  readonly root: HTMLElement;
  /** Null until there is a choice. */
  part(): string | null;
}

function controlsOf(store: SessionStore, work: WaveWork): Controls {
  const which = caseMenu(store);
  const part = el("select", { id: "wave-part" });
  const own = windowFields();
  const told = el("p", { role: "status" });
  const bar = el("progress", { max: 1, "aria-label": "How far the wave is followed" });
  const stop = el("button", { type: "button", on: { click: () => work.stop() } }, "Stop");
  const running = el("p", { class: "look", hidden: true }, bar, stop);
  let mistake: string | null = null;
  const want = (stretch: Stretch): void => {
    mistake = null;
    work.want({ case: which.chosen(), stretch });
  };
  const about = (words: string, stretch: Stretch) =>
    el("button", { type: "button", on: { click: () => want(stretch) } }, words);
  which.menu.addEventListener("change", () => {
    const { wanted } = work.state();
    if (wanted !== null) want(wanted.stretch);
  });
  part.addEventListener("change", () => store.set({}));
  own.onAsked((stretch) => {
    if (typeof stretch !== "string") return want(stretch);
    mistake = stretch;
    show();
  });
  const second = about("Second start", { about: "second start" });
  const show = inNextFrame(() => {
    const { wanted, progress, failure, told: wave } = work.state();
    const { shown } = store.get();
    const delay_s = shown === null ? null : staggeredDelay_s(shown.check);
    second.hidden = delay_s === null;
    which.offer();
    offerParts(part, wave?.study.traces.columns.map((column) => column.part) ?? []);
    if (wanted !== null) own.show(windowOf(wanted, delay_s ?? 0));
    running.hidden = progress === null;
    bar.value = progress ?? 0;
    say(told, mistake ?? failure ?? wordsFor(wanted, progress));
  });
  store.watch(show);
  show();
  const root = el(
    "div",
    { class: "wave-controls" },
    el(
      "div",
      { class: "look" },
      labelled("wave-case", "Case", which.menu),
      labelled("wave-part", "Part", part),
      about("First start", { about: "first start" }),
      second,
      own.root,
    ),
    running,
    told,
  );
  return { root, part: () => (part.options.length > 0 ? part.value : null) };
}

const labelled = (id: string, words: string, control: HTMLElement): HTMLElement =>
  el("span", { class: "look-item" }, el("label", { for: id }, words), control);

const wordsFor = (wanted: Wanted | null, progress: number | null): string =>
  wanted === null ? "" : progress === null ? "" : "Following the wave …";

/** The cases that the cabinet has, the held-back one first. */
function caseMenu(store: SessionStore) {
  const menu = el("select", { id: "wave-case" });
  let names: readonly CaseName[] = [];
  const offer = (): void => {
    const told =
      store
        .get()
        .shown?.check.stories.map((story) => story.case)
        .reverse() ?? [];
    if (told.join() === names.join()) return;
    names = told;
    fill(menu, ...names.map((name) => el("option", { value: name }, caseTitle[name])));
  };
  return { menu, offer, chosen: (): CaseName => names[menu.selectedIndex] ?? "one" };
}

function offerParts(menu: HTMLSelectElement, told: readonly string[]): void {
  const names = [...new Set(told)];
  const there = Array.from(menu.options, (option) => option.value);
  menu.parentElement?.toggleAttribute("hidden", names.length === 0);
  if (names.join("\n") === there.join("\n")) return;
  const chosen = menu.value;
  fill(menu, ...names.map((name) => el("option", { value: name }, name)));
  if (names.includes(chosen)) menu.value = chosen;
}

/** Begin and end of a window of one's own. */
function windowFields() {
  const field = (id: string, words: string): HTMLInputElement =>
    el("input", {
      type: "number",
      id,
      min: 0,
      max: 600,
      step: 0.01,
      inputmode: "decimal",
      "aria-label": words,
    });
  const from = field("wave-from", "From, s");
  const to = field("wave-to", "To, s");
  const button = el("button", { type: "submit" }, "Show");
  const root = el("form", { class: "look-item" }, "from", from, "to", to, "s", button);
  return {
    root,
    onAsked(take: (stretch: Stretch | string) => void): void {
      root.addEventListener("submit", (event) => {
        event.preventDefault();
        take(typedWindow(from.valueAsNumber, to.valueAsNumber));
      });
    },
    show({ from_s, to_s }: { readonly from_s: number; readonly to_s: number }): void {
      for (const [one, value] of [
        [from, from_s],
        [to, to_s],
      ] as const) {
        if (document.activeElement === one || one.dataset.shown === String(value)) continue;
        one.value = String(value);
        setAttributes(one, { "data-shown": value });
      }
    },
  };
}
