import { type Cabinet, writeCabinet } from "@startgap/cabinet";
import { rawFile, rawParts, wordOf } from "../editor/raw.ts";
import type { Json } from "../editor/schema.ts";
import { hasRelay } from "./delay.ts";
import { change } from "./history.ts";
import type { SessionStore } from "./session.ts";

/**
 * Holds the second motor back by `delay_s` from now on: written into the cabinet's delay relays where there are
 * any, longer ones in proportion; else only tried. A file with mistakes in it is left as it is.
 *
 * @param place as of `change`
 */
export function setDelay(store: SessionStore, delay_s: number, place?: string): void {
  const { shown, text, issues } = store.get();
  if (shown === null) return;
  const file = issues.length === 0 ? rawFile(text) : null;
  const held = file !== null && hasRelay(shown.cabinet) && delay_s > 0;
  const next = held ? { text: withDelay(file, shown.cabinet, delay_s), delay_s: null } : { delay_s };
  change(store, next, { place });
  store.set({ aimed_s: delay_s });
}

/** Text of a file with its relays set so that the shortest holds back by `delay_s`; the cabinet knows their proportions. */
function withDelay(file: Json, { relays }: Cabinet, delay_s: number): string {
  const stated = relays.filter((relay) => relay.delay_s.nominal > 0);
  const shortest = Math.min(...stated.map((relay) => relay.delay_s.nominal));
  const settings = new Map(
    stated.map(({ name, delay_s: { nominal, low } }) => [
      name,
      setting((delay_s * nominal) / shortest, 1 - low / nominal),
    ]),
  );
  const parts = rawParts(file).map((part) => {
    const delay = wordOf(part, "is") === "delay relay" ? settings.get(wordOf(part, "name")) : undefined;
    return delay === undefined ? part : { ...(part as Json), delay };
  });
  return writeCabinet({ ...file, parts });
}

/** "6 s +- 10 %" */
function setting(delay_s: number, tolerance: number): string {
  const delay = `${Number(delay_s.toFixed(3))} s`;
  const percent = Number((100 * tolerance).toFixed(1));
  return percent > 0 ? `${delay} +- ${percent} %` : delay;
}
