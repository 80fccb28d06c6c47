import { startStudy } from "../scripts/inModules.ts";
import { staggeredDelay_s } from "../state/delay.ts";
import type { Mapped, Session, SessionStore } from "../state/session.ts";
import { type Line, lineTo } from "./line.ts";
import type { Answer, Ran } from "./messages.ts";

/** Pause in typing after which a cabinet is run. */
const PAUSE_ms = 250;

/** After which marks no longer wait for the figures of a move. */
const LATE_ms = 60;

const startWorker = (name: string): Line => lineTo(startStudy(name));

/**
 * Keeps the results in step with the cabinet: the cases on one worker, the slower delay map on another, so
 * that a drag never waits for a map.
 */
export function startEngine(store: SessionStore): void {
  const cases = startWorker("cases");
  /** Started when first needed: the first picture does not wait for it. */
  let maps: Line | null = null;
  let pause = 0;
  const lateness = latenessOf(store);
  const run = (): void => {
    clearTimeout(pause);
    const session = store.get();
    if (session.text === "") return;
    const question = { ask: "run", text: session.text, delay_s: delayOf(session) } as const;
    lateness.asked();
    cases.ask(question, (answer) => {
      lateness.answered(delayOf(store.get()) === question.delay_s);
      takeCases(store, answer);
    });
  };
  store.watch((now, before) => {
    if (now.text !== before.text || delayOf(now) !== delayOf(before)) {
      clearTimeout(pause);
      if (now.typing && now.text !== before.text) pause = window.setTimeout(run, PAUSE_ms);
      else run();
    }
    if (now.shown !== null && now.shown.text !== before.shown?.text) {
      const { text } = now.shown;
      // While a cabinet is edited its last advice stays until the next is there; another cabinet never shows it.
      if (now.shown.cabinet.title !== before.shown?.cabinet.title) store.set({ map: null });
      maps ??= startWorker("delay map");
      maps.ask({ ask: "map", text }, (answer) => store.set({ map: mapped(text, answer) }));
    }
  });
  cases.ask({ ask: "introduce" }, (answer) => {
    if (answer.say === "introduced") store.set({ schema: answer.schema, examples: answer.examples });
    else takeCases(store, answer);
  });
  run();
}

/** Tells when figures of a move are late: counted from the question that is longest open. */
function latenessOf(store: SessionStore) {
  let timer = 0;
  const begin = (): void => {
    timer = window.setTimeout(() => store.set({ isLate: store.get().moving_s !== null }), LATE_ms);
  };
  return {
    asked(): void {
      if (timer === 0 && store.get().moving_s !== null) begin();
    },
    answered(isNewest: boolean): void {
      clearTimeout(timer);
      timer = 0;
      if (store.get().isLate && isNewest) store.set({ isLate: false });
      if (!isNewest) begin();
    },
  };
}

const delayOf = ({ delay_s, moving_s }: Session): number | null => moving_s ?? delay_s;

function takeCases(store: SessionStore, answer: Answer): void {
  if (answer.say === "ran") takeRun(store, answer);
  if (answer.say === "refused") store.set({ issues: answer.issues, failure: null, aimed_s: null });
  if (answer.say === "failed") store.set({ issues: [], failure: answer.sentence, aimed_s: null });
}

function takeRun(store: SessionStore, { text, cabinet: read, report, same, stories: told }: Ran): void {
  const { aimed_s, shown, issues } = store.get();
  const cabinet = read ?? shown?.cabinet;
  if (cabinet === undefined) return;
  const stories = [...(shown?.check.stories.slice(0, same) ?? []), ...told];
  const check = { report, stories, map: null };
  const told_s = staggeredDelay_s(check);
  const reached = aimed_s === null || told_s === null || Math.abs(told_s - aimed_s) < 0.005;
  store.set({
    shown: { text, cabinet, check },
    issues: issues.length === 0 ? issues : [],
    failure: null,
    aimed_s: reached ? null : aimed_s,
  });
}

function mapped(text: string, answer: Answer): Mapped {
  if (answer.say === "mapped") return { text, map: answer.map, failure: null };
  const why = answer.say === "failed" ? answer.sentence : "The cabinet could not be read.";
  return { text, map: null, failure: `The delays could not all be tried. ${why}` };
}
