import { type Issue, nearestName } from "@startgap/cabinet";

/** Letters and digits alone: "Compressor-1" is "compressor 1". */
export const bare = (name: string): string => name.toLowerCase().replace(/[^\p{L}\p{N}]/gu, "");

/** The name that differs in capitals, blanks and hyphens only, of which a piece was typed, or that is nearly it. */
export const nearestTo = (name: string, names: readonly string[]): string | undefined =>
  names.find((known) => bare(known) === bare(name)) ??
  names.find((known) => bare(name) !== "" && bare(known).includes(bare(name))) ??
  nearestName(name, names);

/**
 * The parts of one kind that a command is about: the named one, or all of them.
 *
 * @param kind as it reads in a message: "motor"
 * @param place where the name was typed
 */
export function named<P extends { readonly name: string }>(
  parts: readonly P[],
  kind: string,
  name: string | undefined,
  place = "NAME",
): { parts: readonly P[] } | { issues: readonly Issue[] } {
  const names = parts.map((part) => part.name);
  if (name === undefined && parts.length > 0) return { parts };
  const found = parts.filter((part) => part.name === name);
  if (found.length > 0) return { parts: found };
  if (parts.length === 0) return { issues: [{ path: "parts", expected: `a ${kind}`, received: "none" }] };
  const expected = `a ${kind} of this cabinet: ${names.join(", ")}`;
  const nearest = nearestTo(name ?? "", names);
  const issue = { path: place, expected, received: JSON.stringify((name ?? "").slice(0, 80)) };
  return { issues: [nearest === undefined ? issue : { ...issue, nearest }] };
}
