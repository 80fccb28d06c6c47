import type { Cabinet } from "@startgap/cabinet";
import type { Circuit } from "@startgap/circuit";
import { treeOf } from "../protection/tree.ts";
import { type Proposal, partsOf, withKeys } from "./proposal.ts";

/** Ratings that small dry-type transformers are sold in, VA (common practice, no source). */
const RATINGS_VA = [
  25, 40, 50, 75, 100, 150, 250, 350, 500, 750, 1000, 1500, 2000, 3000, 5000, 7500, 10_000, 15_000, 25_000,
  37_500, 50_000,
];
/** A step up is at least this much larger. */
const STEP = 1.3;

/**
 * Every transformer that feeds a motor or a contactor's coil in the next rating, its impedance in percent as it was:
 * its ohms fall as its rating grows. One with its impedance in ohms is left alone.
 */
export function largerTransformers(cabinet: Cabinet): Proposal[] {
  const { parts } = cabinet.circuit;
  return partsOf(cabinet).flatMap((p) => {
    const part = p.name as string;
    const own = parts.find(({ name }) => name === part);
    if (own === undefined || !("rating_VA" in own) || typeof p.rating !== "string") return [];
    if (typeof p.impedance === "object" || !matters(cabinet.circuit, part)) return [];
    const next = RATINGS_VA.find((rating) => rating >= STEP * own.rating_VA);
    if (next === undefined) return [];
    const to = rated(next);
    return [{ part, to, from: p.rating, file: withKeys(cabinet, part, { rating: to }) }];
  });
}

const rated = (rating_VA: number): string =>
  rating_VA < 1000 ? `${rating_VA} VA` : `${rating_VA / 1000} kVA`;

/** True when a motor hangs on it, or the coil of a contactor is fed from it. */
function matters(circuit: Circuit, transformer: string): boolean {
  const behind = treeOf(circuit).behind(transformer);
  const feeding = new Set([transformer, ...behind.map(({ name }) => name)]);
  return (
    behind.some((p) => p.is === "motor") ||
    circuit.parts.some((p) => p.is === "contactor" && p.coil !== null && feeding.has(p.coil.fedBy))
  );
}
