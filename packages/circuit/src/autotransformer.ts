import type { Impedance, Place } from "./conventions.ts";
import type { Excitation } from "./transformer.ts";

/**
 * Two windings in series across the input; loads hang on one winding (a leg) or across both.
 * Leakage impedance is that of the pair as a two-winding transformer, referred to the first winding.
 */
export interface AutotransformerParameters extends Place, Impedance {
  readonly is: "autotransformer";
  readonly windings_V: readonly [number, number];
  /** Nameplate as a two-winding transformer. */
  readonly rating_VA: number;
  readonly excitation: Excitation;
}
