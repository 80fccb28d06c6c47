import type { Assumption } from "../grade.ts";

/** One default that has no better source than habit. */
export const assumed = (part: string, what: string, value: string, range: string | null): Assumption => ({
  part,
  what,
  value,
  range,
  grade: "assumed",
  basis: "common practice, no source",
});
