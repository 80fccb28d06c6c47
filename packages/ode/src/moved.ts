import type { Outcome } from "./outcome.ts";
import type { Passage } from "./watch.ts";

/** How far a stretch got, and why it went no further. */
export interface Moved {
  t: number;
  y: readonly number[];
  passage: Passage | null;
  rest: boolean;
  cancelled: boolean;
  failure: Outcome | null;
}
