import type { FindingGravity, Verdict } from "../results.ts";

/** What the protection study returns. Published output: extend, never change. */

export interface ProtectionFinding {
  /** As "fuse against conductor", "interrupting rating", "motor overload". */
  readonly finding: string;
  readonly part: string;
  readonly outcome: Verdict;
  readonly gravity: FindingGravity;
  readonly value: number | null;
  readonly limit: number | null;
  readonly unit: string;
  /** Standard and clause, or "common practice, no source". */
  readonly basis: string;
  /** One plain sentence. */
  readonly says: string;
  /** One plain sentence: what to change; null when nothing needs to. */
  readonly change: string | null;
}

/** Why one rating of a fuse will not do; empty reasons: it holds, or protects. */
export interface FuseCandidate {
  readonly rating_A: number;
  /** Factor by which the whole start could grow before it melts; null when no current flows. */
  readonly currentMargin: number | null;
  readonly holds: boolean;
  readonly protects: boolean;
  readonly reasons: readonly string[];
}

/** The ratings of one fuse that hold the start and still protect. */
export interface FuseWindow {
  readonly part: string;
  readonly fitted_A: number;
  /** Smallest standard rating that holds; null when none does. */
  readonly smallest_A: number | null;
  /** Largest standard rating that protects; null when none does. */
  readonly largest_A: number | null;
  readonly candidates: readonly FuseCandidate[];
}

/** Which body of rules was read: by the supply's frequency. */
export type Rules = "NEC" | "IEC 60364";

export interface ProtectionReport {
  readonly startgap: "protect 1";
  readonly title: string;
  readonly rules: Rules;
  /** Danger first, then what stops the work; failing before passing. */
  readonly findings: readonly ProtectionFinding[];
  readonly windows: readonly FuseWindow[];
  /** What this does not judge, and what was assumed, in plain words. */
  readonly notes: readonly string[];
}
