/** Settings of a study; every field has a default. */
export interface StudyOptions {
  /** Stagger of the staggered case; default: the file's delay relay, else 6 s. */
  readonly delay_s?: number;
  /** Length of every story; default 15 s, longer when the last motor closes late. */
  readonly duration_s?: number;
  /** Relative and absolute tolerance of the solver; default 1e-6. */
  readonly tolerance?: number;
  /** False leaves the delay map and the advice out, for a quick look while a delay is being dragged. */
  readonly withMap?: boolean;
  /** Longest delay of the map; default 12 s. */
  readonly longestDelay_s?: number;
  /** Spacing of the map's delays; default 0.1 s. */
  readonly delayStep_s?: number;
  readonly signal?: { readonly aborted: boolean };
  /** Fraction of the work done, 0 to 1. */
  readonly onProgress?: (fraction: number) => void;
}
