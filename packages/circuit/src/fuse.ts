import type { Impedance, Place } from "./conventions.ts";
import type { MeltTerms } from "./melt.ts";

/** One fuse, or a pair in the two lines that carry the same current; impedance is that of all poles. */
export interface FuseParameters extends Place, Impedance {
  readonly is: "fuse";
  /** 1 or 2: how many lines are fused. All carry the same current and melt together in the model. */
  readonly poles: number;
  readonly rating_A: number;
  /** Fast edge of the band: hold is judged on it and the story opens on it. Null: never melts. */
  readonly melt: MeltTerms | null;
  /** Slow edge (total clearing): protection is judged on it. */
  readonly clearing: MeltTerms | null;
}
