/** How one figure of the held-back start comes out over all draws. */
export interface Spread {
  readonly part: string;
  readonly quantity: "lowest voltage" | "run-up" | "melt fraction" | "lowest coil voltage";
  readonly unit: "V" | "s" | "";
  /** With every quantity at the middle of its range; null when it never comes about. */
  readonly nominal: number | null;
  /** Of twenty draws one lies below, one above, half on either side; null when it never comes about. */
  readonly low: number | null;
  readonly median: number | null;
  readonly high: number | null;
  /** Draws in which it comes about: a motor that stalls has no run-up. */
  readonly known: number;
}

/** A quantity of the file with a range, and how much it decides. */
export interface Influence {
  readonly part: string;
  /** Its place in the file: "parts[4].length". */
  readonly path: string;
  readonly low: number;
  readonly high: number;
  readonly unit: string;
  /** Rank correlation with the lowest voltage of all, -1 to 1. */
  readonly correlation: number;
}

export interface VaryReport {
  readonly startgap: "vary 1";
  readonly title: string;
  readonly delay_s: number;
  readonly draws: number;
  /** Draws whose values contradict each other, and that are left out. */
  readonly refused: number;
  /** Draws in which nothing fails. */
  readonly passes: number;
  /** What fails, in how many draws, most first: the finding's question and its part. */
  readonly fails: readonly { readonly finding: string; readonly part: string; readonly draws: number }[];
  readonly spreads: readonly Spread[];
  /** The most deciding first. */
  readonly influences: readonly Influence[];
}
