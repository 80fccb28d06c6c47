import { transformerFrom } from "@startgap/cabinet";
import type { AutotransformerParameters, Excitation, TransformerParameters } from "@startgap/circuit";

/** Idle branch of a transformer, and whether it had to be assumed. */
export interface Idle {
  readonly excitation: Excitation;
  readonly assumed: boolean;
}

/**
 * The idle loss and exciting current of a transformer: its own where the file states them, else the usual for its
 * rating. A circuit takes only what is stated (it changes a start by next to nothing); heat, and what a lone winding
 * does, hang on it.
 *
 * @returns nothing at all for a transformer without a rating, or one beyond the table of usual units
 */
export function idleOf(p: AutotransformerParameters | TransformerParameters): Idle {
  const { excitation, windings_V, rating_VA } = p;
  if (excitation.conductance_S > 0 || excitation.susceptance_S > 0) return { excitation, assumed: false };
  if (!Number.isFinite(rating_VA)) return { excitation, assumed: false };
  const usual = transformerFrom({ is: p.is, windings_V, rating_VA }, p.name);
  return "value" in usual
    ? { excitation: usual.value.excitation, assumed: true }
    : { excitation, assumed: false };
}
