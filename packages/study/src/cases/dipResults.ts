import type { Verdict } from "../results.ts";

/** What a dip does to the starts that follow it. */
export type DipEnd =
  /** Every motor runs on. */
  | "holds"
  /** Motors come back at the same time, or the later one before the earlier one is up. */
  | "together"
  /** Motors come back one after the other. */
  | "staggered"
  /** One motor comes back by itself. */
  | "alone"
  /** Some motor is off, and stays off, when the voltage is back. */
  | "stays off"
  /** Contacts open and close without end. */
  | "chatters";

/** One dip, by what is left of the voltage and how long it lasts. */
export interface DipOutcome {
  /** Fraction of nominal voltage. */
  readonly left: number;
  readonly length_s: number;
  readonly end: DipEnd;
  /** Back one after the other: pass; all together: caution; something stalls, melts, chatters or stays off: fail. */
  readonly verdict: Verdict;
  /** Contactors that let go, relays that lost their count, timers that locked out. */
  readonly letGo: readonly string[];
  readonly reset: readonly string[];
  readonly lockedOut: readonly string[];
  /** Motors whose start winding came in again later, because of the others' start. */
  readonly fellBack: readonly string[];
  /** Motors that come back against full head. */
  readonly loaded: readonly string[];
  /** Motors that do not run at the end. */
  readonly stalled: readonly string[];
  /** Fuses that melted. */
  readonly melted: readonly string[];
  /** Contactors that let go three times or more. */
  readonly chatters: readonly string[];
  /**
   * By motor: from the end of the dip to its start; below 0 when it started again within the dip, null when it kept
   * running or stays off.
   */
  readonly back_s: readonly { readonly part: string; readonly after_s: number | null }[];
}

/** The map over both, and for each depth the lengths at which its answer changes. */
export interface DipMap {
  readonly startgap: "dips 1";
  readonly title: string;
  /** Ascending. */
  readonly left: readonly number[];
  readonly length_s: readonly number[];
  /** By what is left, then by length. */
  readonly outcomes: readonly (readonly DipOutcome[])[];
  /** For every depth of the grid, and for those between them where the answer changes with the depth; ascending. */
  readonly edges: readonly DipEdges[];
  /** The delay between motors with which the stories were told. */
  readonly delay_s: number;
  /** What to change, a sentence for every kind of trouble, that of the gravest dips first; empty when nothing needs to. */
  readonly changes: readonly string[];
}

/** No map: why there is none. */
export interface NoDips {
  readonly startgap: "dips 1";
  readonly title: string;
  readonly skipped: string;
}

export interface DipEdges {
  readonly left: number;
  /** What the shortest dip of the grid comes to. */
  readonly shortest: DipEnd;
  /** Every length at which the end changes, ascending: up to here it is `before`, from here on `after`. */
  readonly changes: readonly { readonly at_s: number; readonly before: DipEnd; readonly after: DipEnd }[];
}
