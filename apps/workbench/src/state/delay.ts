import type { Cabinet } from "@startgap/cabinet";
import type { Check } from "@startgap/study";
import type { Session } from "./session.ts";

/** Longest delay that the page tries. */
export const LONGEST_DELAY_s = 600;

export const FINE_STEP_s = 0.1;
export const COARSE_STEP_s = 1;

/** Delay of the staggered case; null when there is none. */
export const staggeredDelay_s = (check: Check): number | null =>
  check.stories.find((story) => story.case === "staggered")?.delay_s ?? null;

/** The delay as the page has it: where the handle is or was let go, else as the cases were run. */
export function delayNow_s({ moving_s, aimed_s, shown }: Session): number | null {
  const told_s = shown === null ? null : staggeredDelay_s(shown.check);
  return told_s === null ? null : (moving_s ?? aimed_s ?? told_s);
}

/**
 * The delay that marks on the page stand at. While the handle is moved it is the one that the figures show, so that
 * everything on the page moves in the same frame; only where the study does not keep up, marks go ahead of the figures.
 */
export function delayShown_s(session: Session): number | null {
  const { moving_s, isLate, shown } = session;
  if (moving_s === null || isLate || shown === null) return delayNow_s(session);
  return staggeredDelay_s(shown.check);
}

/** To the hundredth, and within what the page tries. */
export const settable = (delay_s: number): number =>
  Math.min(LONGEST_DELAY_s, Math.max(0, Math.round(delay_s * 100) / 100));

/** True when the file has relays that can hold a delay that was tried. */
export const hasRelay = (cabinet: Cabinet): boolean =>
  cabinet.relays.some((relay) => relay.delay_s.nominal > 0);
