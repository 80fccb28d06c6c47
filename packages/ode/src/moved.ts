import type { Outcome } from "./outcome.ts";
import type { Flow } from "./plant.ts";
import type { Passage } from "./watch.ts";

/** How far a stretch got, and why it went no further. */
export interface Moved {
  t: number;
  y: readonly number[];
  passage: Passage | null;
  /** Set when the plant came to rest: how it goes on. */
  flow: Flow | null;
  cancelled: boolean;
  failure: Outcome | null;
  /** Length of the last step: the first one to try next. */
  step: number;
  /** Longest step allowed from here on. */
  longest: number;
}

export const standing = (
  t: number,
  y: readonly number[],
  step: number,
  longest = Number.POSITIVE_INFINITY,
): Moved => ({
  t,
  y,
  passage: null,
  flow: null,
  cancelled: false,
  failure: null,
  step,
  longest,
});
