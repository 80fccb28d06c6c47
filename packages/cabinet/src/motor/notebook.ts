import type { Assumption, Grade } from "../grade.ts";

/** What was taken on the way from a plate to a circuit, in the order in which it was taken. */
export interface Notebook {
  readonly part: string;
  readonly assumptions: Assumption[];
  /** Where the plate speaks against itself: one sentence each, saying which figure was believed. */
  readonly contradictions: string[];
}

export const notebook = (part: string): Notebook => ({ part, assumptions: [], contradictions: [] });

export const NO_SOURCE = "common practice, no source";

/** Three digits and the unit: `0.0055 kg m2`. */
export function text(value: number, unit: string): string {
  const digits = String(Number(value.toPrecision(3)));
  return unit === "" ? digits : `${digits} ${unit}`;
}

/** `0.0033 to 0.0088 kg m2` */
export function rangeText(low: number, high: number, unit: string): string {
  return high === Infinity ? `${text(low, unit)} and up` : `${text(low, "")} to ${text(high, unit)}`;
}

/** Whole percent; one digit below 2 %. */
export const percent = (share: number): string =>
  `${share < 0.02 ? Number((100 * share).toPrecision(1)) : Math.round(100 * share)} %`;

/** Writes one value down that the plate did not state. */
export function assume(
  { part, assumptions }: Notebook,
  what: string,
  value: string,
  range: string | null,
  basis: string,
  grade: Grade = "assumed",
): void {
  assumptions.push({ part, what, value, range, grade, basis });
}
