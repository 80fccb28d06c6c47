import { type CheckReport, deciding } from "@startgap/study";

/** Exit status of the command. 130, an interrupt, is set where the signal arrives. */
export const exit = { passed: 0, failed: 1, badInput: 2, unfinished: 3 } as const;

/** 0 when no deciding finding fails, else 1. */
export function statusOf(report: CheckReport): number {
  return deciding(report).some((f) => f.outcome === "fail") ? exit.failed : exit.passed;
}
