import type { Finding } from "./results.ts";

type Judged = Omit<Finding, "case">;

/** Keeps a verdict that a tenfold tighter tolerance confirms; else it becomes a caution that says so. */
export function agreed<T extends Judged>(findings: readonly T[], tighter: readonly T[]): T[] {
  const key = ({ finding, part }: Judged): string => JSON.stringify([finding, part]);
  const other = new Map(tighter.map((finding) => [key(finding), finding]));
  return findings.map((finding) => {
    const same = other.get(key(finding));
    if (same?.outcome === finding.outcome) return finding;
    const says = `${finding.says} Too close to its limit to call.`;
    return { ...finding, outcome: "caution", change: finding.change ?? same?.change ?? null, says };
  });
}
