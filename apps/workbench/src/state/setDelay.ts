import { type Cabinet, writeCabinet } from "@startgap/cabinet";
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
  const { shown, text } = store.get();
  if (shown === null) return;
  const held = shown.text === text && hasRelay(shown.cabinet) && delay_s > 0;
  const next = held ? { text: withDelay(shown.cabinet, delay_s), delay_s: null } : { delay_s };
  change(store, next, { place });
  store.set({ aimed_s: delay_s });
}

/** Text of the cabinet's file with its relays set so that the shortest holds back by `delay_s`. */
function withDelay({ file, relays }: Cabinet, delay_s: number): string {
  const stated = relays.filter((relay) => relay.delay_s.nominal > 0);
  const shortest = Math.min(...stated.map((relay) => relay.delay_s.nominal));
  const settings = new Map(
    stated.map(({ name, delay_s: { nominal, low } }) => [
      name,
      setting((delay_s * nominal) / shortest, 1 - low / nominal),
    ]),
  );
  const parts = (file.parts as readonly { readonly name: string }[]).map((part) =>
    settings.has(part.name) ? { ...part, delay: settings.get(part.name) } : part,
  );
  return writeCabinet({ ...file, parts });
}

/** "6 s +- 10 %" */
function setting(delay_s: number, tolerance: number): string {
  const delay = `${Number(delay_s.toFixed(3))} s`;
  const percent = Number((100 * tolerance).toFixed(1));
  return percent > 0 ? `${delay} +- ${percent} %` : delay;
}
