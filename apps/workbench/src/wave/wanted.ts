import type { CaseName } from "@startgap/study";

/** The stretch that is wanted: about a start, which moves with the delay, or as typed. */
export type Stretch =
  | { readonly about: "first start" | "second start" }
  | { readonly about: "own"; readonly from_s: number; readonly to_s: number };

export interface Wanted {
  readonly case: CaseName;
  readonly stretch: Stretch;
}

/** Some eighteen cycles from a start on: single waves can be told apart, and a clamp meter begins with them. */
const AFTER_s = 0.3;
/** To the millisecond. */
const rounded = (time_s: number): number => Math.round(1000 * time_s) / 1000;

/** The window of a stretch when the second start comes `delay_s` after the first. */
export function windowOf(
  { stretch }: Pick<Wanted, "stretch">,
  delay_s: number,
): { from_s: number; to_s: number } {
  if (stretch.about === "own") return { from_s: stretch.from_s, to_s: stretch.to_s };
  const start_s = stretch.about === "first start" ? 0 : delay_s;
  return { from_s: rounded(start_s), to_s: rounded(start_s + AFTER_s) };
}

const LATEST_s = 600;

/** A typed window, or what is wrong with it in a sentence. */
export function typedWindow(from: number, to: number): Stretch | string {
  if (!(from >= 0 && from < LATEST_s)) return `The window begins at 0 s or later, and before ${LATEST_s} s.`;
  if (!(to > from && to <= LATEST_s))
    return `The window ends after it begins, at ${LATEST_s} s at the latest.`;
  return { about: "own", from_s: from, to_s: to };
}
