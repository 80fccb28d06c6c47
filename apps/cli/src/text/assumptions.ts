import type { Assumption } from "@startgap/cabinet";
import { count } from "./numbers.ts";
import { labelled, wrap } from "./wrap.ts";

/** Every assumed value with its part, plausible range, grade and where it comes from. */
export function assumptionLines(assumptions: readonly Assumption[], width: number): string[] {
  return assumptions.flatMap((a) => [
    ...wrap(`${a.part}: ${a.what} ${a.value}${a.range === null ? "" : ` (${a.range})`}`, width, 4),
    ...labelled("    ", `${a.grade}; ${a.basis}`, width),
  ]);
}

/** How many values were taken without being stated, and how to see them. */
export function assumptionCount(assumptions: readonly Assumption[]): string {
  if (assumptions.length === 0) return "Nothing was assumed: the file states every value.";
  const n = count(assumptions.length, "value");
  return `${n} not stated in the file ${assumptions.length === 1 ? "was" : "were"} taken from tables or assumed; --assumptions lists them.`;
}
