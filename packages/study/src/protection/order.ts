import type { FindingGravity, ProtectionFinding } from "./results.ts";

const GRAVITY: readonly FindingGravity[] = ["danger", "stops work", "note"];
const OUTCOME = ["fail", "caution", "pass"] as const;

/** What is wrong before what is right; of what is wrong danger first, then what stops the work; failing before doubt. */
export function byDanger(findings: readonly ProtectionFinding[]): ProtectionFinding[] {
  const rank = ({ outcome, gravity }: ProtectionFinding): number =>
    (outcome === "pass" ? 100 : 0) + 10 * GRAVITY.indexOf(gravity) + OUTCOME.indexOf(outcome);
  return [...findings].sort((a, b) => rank(a) - rank(b));
}
