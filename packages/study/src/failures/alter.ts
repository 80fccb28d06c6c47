import type { Circuit, FuseParameters, Leg, PartParameters } from "@startgap/circuit";

type Fed = Exclude<PartParameters, { readonly is: "supply" }>;

/**
 * A link in the tree that a failure holds open: a fuse without an element to melt, whose mode says "melted".
 * It needs no part of its own, and what hangs on it is dead.
 */
export const openLink = (name: string, fedBy: string, leg: Leg): FuseParameters => ({
  is: "fuse",
  name,
  fedBy,
  leg,
  r_ohm: 0,
  x_ohm: 0,
  poles: 1,
  rating_A: Number.POSITIVE_INFINITY,
  melt: null,
  clearing: null,
});

/** The same circuit with one part in another's place; whoever it feeds is fed as before. */
export const replaced = (circuit: Circuit, part: PartParameters): Circuit => ({
  ...circuit,
  parts: circuit.parts.map((p) => (p.name === part.name ? part : p)),
});

/** The same circuit with an open link in front of a part. */
export function openedBefore(circuit: Circuit, part: Fed, link: string): Circuit {
  const parts = circuit.parts.flatMap((p): PartParameters[] =>
    p.name === part.name
      ? [openLink(link, part.fedBy, part.leg), { ...part, fedBy: link, leg: "first" }]
      : [p],
  );
  return { ...circuit, parts };
}

/** The same circuit with an open link between a part and everything it feeds, coils and timers included. */
export function openedAfter(circuit: Circuit, part: Fed, link: string): Circuit {
  const parts = circuit.parts.flatMap((p): PartParameters[] => {
    if (p.name === part.name) return [p, openLink(link, p.name, "first")];
    return [fedThrough(p, part.name, link)];
  });
  const controls = circuit.controls?.map((c) =>
    c.is === "lock-out timer" && c.watches === part.name ? { ...c, watches: link } : c,
  );
  return { ...circuit, parts, ...(controls === undefined ? {} : { controls }) };
}

function fedThrough(p: PartParameters, from: string, to: string): PartParameters {
  if (p.is === "supply") return p;
  const fed = p.fedBy === from ? { ...p, fedBy: to } : p;
  if (fed.is !== "contactor" || fed.coil?.fedBy !== from) return fed;
  return { ...fed, coil: { ...fed.coil, fedBy: to } };
}

/** The same circuit with one more part after another. */
export const addedAfter = (circuit: Circuit, name: string, part: PartParameters): Circuit => ({
  ...circuit,
  parts: circuit.parts.flatMap((p) => (p.name === name ? [p, part] : [p])),
});

/** A name that no part has. */
export function freeName(circuit: Circuit, wanted: string): string {
  const taken = new Set(circuit.parts.map((p) => p.name));
  let name = wanted;
  while (taken.has(name)) name = `${name}'`;
  return name;
}

/** True for a part on the way from the supply to another one, and for that one itself. */
export function isBehind(circuit: Circuit, part: PartParameters, before: string): boolean {
  const byName = new Map(circuit.parts.map((p) => [p.name, p]));
  for (let p: PartParameters | undefined = part; p !== undefined; ) {
    if (p.name === before) return true;
    p = p.is === "supply" ? undefined : byName.get(p.fedBy);
  }
  return false;
}
