import { closest, distance } from "fastest-levenshtein";

/** The known name nearest to a wrong one, when it is near enough to have been meant; capitals do not count. */
export function nearestName(wrong: string, known: readonly string[]): string | undefined {
  if (known.length === 0 || wrong.length > 80) return undefined;
  const low = known.map((name) => name.toLowerCase());
  const best = low.indexOf(closest(wrong.toLowerCase(), low));
  const far = distance(wrong.toLowerCase(), low[best]!);
  const near = wrong.length < 4 ? 1 : Math.max(2, Math.floor(wrong.length / 3));
  return far <= near && far < wrong.length ? known[best] : undefined;
}
