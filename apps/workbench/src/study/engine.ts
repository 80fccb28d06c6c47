import type { Session, SessionStore } from "../state/session.ts";
import { type Line, lineTo } from "./line.ts";
import type { Answer } from "./messages.ts";

const startWorker = (name: string): Line =>
  lineTo(new Worker(new URL("./worker.ts", import.meta.url), { type: "module", name }));

/**
 * Keeps the results in step with the cabinet: the cases on one worker, the slower delay map on another, so
 * that a drag never waits for a map.
 */
export function startEngine(store: SessionStore): void {
  const cases = startWorker("cases");
  const maps = startWorker("delay map");
  cases.ask({ ask: "introduce" }, (answer) => {
    if (answer.say === "introduced") store.set({ schema: answer.schema, examples: answer.examples });
    else takeCases(store, answer);
  });
  const run = (): void => {
    const session = store.get();
    if (session.text === "") return;
    const question = { ask: "run", text: session.text, delay_s: delayOf(session) } as const;
    cases.ask(question, (answer) => takeCases(store, answer));
  };
  store.watch((now, before) => {
    if (now.text !== before.text || delayOf(now) !== delayOf(before)) run();
    if (now.shown !== null && now.shown.text !== now.map?.text && now.shown.text !== before.shown?.text) {
      maps.ask({ ask: "map", text: now.shown.text }, (answer) => takeMap(store, answer));
    }
  });
  run();
}

const delayOf = ({ delay_s, moving_s }: Session): number | null => moving_s ?? delay_s;

function takeCases(store: SessionStore, answer: Answer): void {
  if (answer.say === "ran") {
    const cabinet = answer.cabinet ?? store.get().shown?.cabinet;
    if (cabinet === undefined) return;
    store.set({ shown: { text: answer.text, cabinet, check: answer.check }, issues: [], failure: null });
  }
  if (answer.say === "refused") store.set({ issues: answer.issues, failure: null });
  if (answer.say === "failed") store.set({ issues: [], failure: answer.sentence });
}

function takeMap(store: SessionStore, answer: Answer): void {
  if (answer.say === "mapped") store.set({ map: { text: answer.text, map: answer.map } });
}
