import type { CheckReport, Finding, Verdict } from "@startgap/study";

/** Gravest first. */
export const verdicts: readonly Verdict[] = ["fail", "caution", "pass"];

/**
 * The findings of the way the cabinet would be run. Where a second motor is held back, both at once is the reason for
 * the delay and no fault of the cabinet; where nothing is held back, it is the way the cabinet is run.
 */
export function deciding({ cases, findings }: CheckReport): readonly Finding[] {
  const held = cases.some((one) => one.case === "staggered");
  return findings.filter((finding) => !(held && finding.case === "together"));
}

/** What goes wrong when everything starts at once, where that is not the way the cabinet is run. */
export function unheld(report: CheckReport): readonly Finding[] {
  const decides = new Set(deciding(report));
  return report.findings.filter((finding) => !decides.has(finding) && finding.outcome !== "pass");
}

/** The way the cabinet is run tells more than the first motor alone. */
const telling = (finding: Finding): number => (finding.case === "one" ? 1 : 0);

/** Gravest first, and of each question about each part the gravest alone. */
export function byGravity(findings: readonly Finding[]): Finding[] {
  const gravity = ({ outcome }: Finding): number => verdicts.indexOf(outcome);
  const sorted = [...findings].sort((f, g) => gravity(f) - gravity(g) || telling(f) - telling(g));
  const first = new Map<string, Finding>();
  for (const finding of sorted) {
    const question = JSON.stringify([finding.finding, finding.part]);
    if (!first.has(question)) first.set(question, finding);
  }
  return [...first.values()];
}

/** The verdict of the whole: that of the gravest deciding finding. */
export const overall = (report: CheckReport): Verdict => byGravity(deciding(report))[0]?.outcome ?? "pass";
