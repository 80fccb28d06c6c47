import type { Circuit, PartParameters } from "@startgap/circuit";

export type Consumer = Extract<PartParameters, { readonly is: "motor" | "load" }>;
export type FusePart = Extract<PartParameters, { readonly is: "fuse" }>;

/** The tree of a circuit as questions of protection ask for it. */
export interface Tree {
  /** From the part's feeder to the supply. */
  ahead(name: string): readonly PartParameters[];
  /** Everything fed through a part, without itself. */
  behind(name: string): readonly PartParameters[];
  consumersBehind(name: string): readonly Consumer[];
  /** The nearest fuse that the part's current passes before it; null when there is none. */
  fuseAhead(name: string): FusePart | null;
  /** The parts whose nearest fuse ahead is this one. */
  protectedBy(fuse: string): readonly PartParameters[];
}

export function treeOf(circuit: Circuit): Tree {
  const byName = new Map(circuit.parts.map((p) => [p.name, p]));
  const ahead = (name: string): PartParameters[] => {
    const way: PartParameters[] = [];
    let p = byName.get(name);
    while (p !== undefined && p.is !== "supply") {
      p = byName.get(p.fedBy);
      if (p !== undefined) way.push(p);
    }
    return way;
  };
  const ways = new Map(circuit.parts.map((p) => [p.name, ahead(p.name)]));
  const wayOf = (name: string): readonly PartParameters[] => ways.get(name) ?? [];
  const behind = (name: string): PartParameters[] =>
    circuit.parts.filter((p) => wayOf(p.name).some((one) => one.name === name));
  const fuseAhead = (name: string): FusePart | null => {
    for (const p of wayOf(name)) if (p.is === "fuse") return p;
    return null;
  };
  return {
    ahead: wayOf,
    behind,
    consumersBehind: (name) => behind(name).filter((p) => p.is === "motor" || p.is === "load"),
    fuseAhead,
    protectedBy: (fuse) => circuit.parts.filter((p) => fuseAhead(p.name)?.name === fuse),
  };
}
