import { dimensions, isRange, quantityOf } from "@startgap/cabinet";

const plainNumber = /^(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d{1,3})?$/i;

/** A typed number without a unit, as "1e-6"; null when it is none. */
export const numberOf = (text: string): number | null =>
  plainNumber.test(text.trim()) ? Number(text) : null;

/** Seconds of a typed time with its unit, as "6 s" or "250 ms", in the units of a cabinet file; null when it is none. */
export function secondsOf(text: string): number | null {
  const read = quantityOf(text, dimensions.time);
  return isRange(read) && read.low === read.high ? read.nominal : null;
}
