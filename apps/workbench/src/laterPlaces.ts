import { el, fill } from "./dom.ts";
import { later } from "./scripts/inModules.ts";
import type { SessionStore } from "./state/session.ts";

/** Places for what follows the first picture. */
export interface LaterPlaces {
  /** The figures under the start itself. */
  readonly figures: HTMLElement;
  readonly client: HTMLElement;
}

const AFTER_FIRST_PICTURE_ms = 50;

/**
 * What the first picture does not need follows it: from then on the page asks for nothing any more. Where it did not
 * come, it is asked for again when the client view is wanted.
 */
export function placesForLater(store: SessionStore): LaterPlaces {
  const waits = (): HTMLElement => el("p", { class: "soft" }, "One moment …");
  const figures = el("div", { class: "later" }, waits());
  const client = el("div", { hidden: true }, waits());
  let isThere = false;
  const take = async (): Promise<void> => {
    try {
      const { clientView, figureCards, waveCard } = await later();
      if (isThere) return;
      isThere = true;
      fill(figures, el("div", { class: "lower" }, ...figureCards(store)), waveCard(store));
      fill(client, clientView(store));
    } catch (error) {
      const words = `Not everything is here: ${(error as Error).message}.`;
      for (const place of [figures, client]) fill(place, el("p", {}, words));
    }
  };
  store.watch((now, before) => {
    if (now.shown !== null && before.shown === null) setTimeout(() => void take(), AFTER_FIRST_PICTURE_ms);
    if (now.view === "client" && before.view !== "client" && !isThere) void take();
  });
  return { figures, client };
}
