import type { Cabinet } from "@startgap/cabinet";
import { type Proposal, partsOf, withKeys } from "./proposal.ts";

const other = { first: "second", second: "first" } as const;

/** Every part that hangs on one leg of an autotransformer, moved to the other with all that it feeds. */
export function otherLegs(cabinet: Cabinet): Proposal[] {
  const parts = partsOf(cabinet);
  const halves = new Set(parts.filter((p) => p.is === "autotransformer").map((p) => p.name));
  return parts.flatMap((p) => {
    const leg = p.leg ?? "first";
    if (!halves.has(p.fedBy) || (leg !== "first" && leg !== "second")) return [];
    const part = p.name as string;
    const to = other[leg];
    return [
      { part, to: `the ${to} leg`, from: `the ${leg} leg`, file: withKeys(cabinet, part, { leg: to }) },
    ];
  });
}
