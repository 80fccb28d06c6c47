import type { CheckReport, Finding } from "@startgap/study";

/** Exit status of the command. 130, an interrupt, is set where the signal arrives. */
export const exit = { passed: 0, failed: 1, badInput: 2, unfinished: 3 } as const;

/**
 * The findings that decide the exit status: those of the way the cabinet would be run.
 *
 * Where there is a second motor to hold back, both at once is told as the reason for the delay, not as a
 * fault of the cabinet; where nothing is held back, it is the way the cabinet is run.
 */
export function deciding(report: CheckReport): readonly Finding[] {
  const staggered = report.cases.some((c) => c.case === "staggered");
  return report.findings.filter((f) => !(staggered && f.case === "together"));
}

/** 0 when no deciding finding fails, else 1. */
export function statusOf(report: CheckReport): number {
  return deciding(report).some((f) => f.outcome === "fail") ? exit.failed : exit.passed;
}
