import { type Cabinet, conductorNamed, conductorNames } from "@startgap/cabinet";
import { type Proposal, partsOf, withKeys } from "./proposal.ts";

/** How many sizes up are tried: one, and the next but one where that is still a wire one can pull. */
const SIZES_UP = 2;

/** Every cable in the next thicker sizes of its own metal and system. */
export function thickerCables(cabinet: Cabinet): Proposal[] {
  return partsOf(cabinet).flatMap((p) => {
    if (p.is !== "cable" || typeof p.conductor !== "string") return [];
    const own = conductorNamed(p.conductor);
    if ("path" in own) return [];
    const part = p.name as string;
    return thicker(own.name)
      .slice(0, SIZES_UP)
      .map((to) => ({ part, to, from: own.name, file: withKeys(cabinet, part, { conductor: to }) }));
  });
}

/** The names after this one in its own series, thinnest first. */
function thicker(name: string): readonly string[] {
  const series = name.slice(name.indexOf(" "));
  const names = conductorNames.filter((one) => one.endsWith(series));
  return names.slice(names.indexOf(name) + 1);
}
