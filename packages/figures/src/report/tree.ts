import type { Circuit, PartParameters } from "@startgap/circuit";

/** Every part that gets its power through the named one, in the order of the circuit. */
export function fedThrough({ parts }: Circuit, name: string): PartParameters[] {
  const live = new Set([name]);
  return parts.filter((part) => {
    const fed = "fedBy" in part && live.has(part.fedBy);
    if (fed) live.add(part.name);
    return fed;
  });
}
