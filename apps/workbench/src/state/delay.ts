import type { Cabinet } from "@startgap/cabinet";
import type { Session } from "./session.ts";

/** A day has too many seconds for a delay relay; the file takes an hour. */
export const LONGEST_DELAY_s = 600;

export const FINE_STEP_s = 0.1;
export const COARSE_STEP_s = 1;

/** The delay of the staggered case as the page has it: where the handle is, else as it was run. */
export function delayNow_s({ moving_s, shown }: Session): number | null {
  const staggered = shown?.check.stories.find((story) => story.case === "staggered");
  if (staggered === undefined) return null;
  return moving_s ?? staggered.delay_s;
}

/** To the hundredth, and within what a relay can be set to. */
export const settable = (delay_s: number): number =>
  Math.min(LONGEST_DELAY_s, Math.max(0, Math.round(delay_s * 100) / 100));

/** True when the file has relays that can hold a delay that was tried. */
export const hasRelay = (cabinet: Cabinet): boolean =>
  cabinet.relays.some((relay) => relay.delay_s.nominal > 0);
