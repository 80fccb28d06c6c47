import type { CaseReport, Finding, StoryEvent, Verdict } from "../results.ts";

/** Stories beside the start itself: what the day, the line and a failed part bring. */
export type CaseKind =
  | "first start"
  | "trapped head"
  | "power return"
  | "dip"
  | "low line"
  | "by current"
  | "tries in a row"
  | "relay failed closed"
  | "stalled rotor"
  | "start switch stuck closed"
  | "start switch stuck open"
  | "contactor welded"
  | "transformer switched on";

export type CaseFinding = Omit<Finding, "case"> & { readonly case: CaseKind };

/** What a told case came to; times count from the moment that the case is about. */
export interface CaseTold {
  readonly case: CaseKind;
  /** What happens in it, one sentence. */
  readonly about: string;
  /** Why this cabinet has no such story; null when it was told. */
  readonly skipped: string | null;
  /** The gravest of its findings; null when there are none. */
  readonly outcome: Verdict | null;
  /** Motors, fuses, points and contactors as in `check`; null where no story was recorded. */
  readonly report: Omit<CaseReport, "case"> | null;
  readonly findings: readonly CaseFinding[];
  /** What contacts, fuses and heads did, in order. */
  readonly events: readonly StoryEvent[];
}

export interface CasesReport {
  readonly startgap: "cases 1";
  readonly title: string;
  /** Those of all cases: danger first, then what stops the work; failing before doubt, what passes last. */
  readonly findings: readonly CaseFinding[];
  readonly cases: readonly CaseTold[];
}
