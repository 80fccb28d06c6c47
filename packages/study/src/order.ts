import type { CheckReport, Finding, FindingGravity, Verdict } from "./results.ts";

/** The order in which findings are told, in one place: text, report and JSON all take it from here. */

/** Gravest first. */
export const verdicts: readonly Verdict[] = ["fail", "caution", "pass"];
export const gravities: readonly FindingGravity[] = ["danger", "stops work", "note"];

interface Judgement {
  readonly outcome: Verdict;
  readonly gravity: FindingGravity;
}

/**
 * What is wrong before what is right; of what is wrong danger first, then what stops the work; failing before doubt.
 * Equals stay as they are.
 */
export function byDanger<T extends Judgement>(findings: readonly T[]): T[] {
  const rank = ({ outcome, gravity }: Judgement): number =>
    (outcome === "pass" ? 100 : 0) + 10 * gravities.indexOf(gravity) + verdicts.indexOf(outcome);
  return [...findings].sort((a, b) => rank(a) - rank(b));
}

/** The gravest verdict; null of nothing. */
export function gravestOf(findings: readonly Pick<Judgement, "outcome">[]): Verdict | null {
  return verdicts.find((verdict) => findings.some(({ outcome }) => outcome === verdict)) ?? null;
}

/**
 * The findings that count: those of the way the cabinet would be run.
 *
 * Where there is a second motor to hold back, both at once is told as the reason for the delay, not as a fault of the
 * cabinet; where nothing is held back, it is the way the cabinet is run.
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

/** One finding a question and part, the gravest of its cases; danger first. */
export function onceEach(findings: readonly Finding[]): Finding[] {
  const grave = [...findings].sort(
    (f, g) => verdicts.indexOf(f.outcome) - verdicts.indexOf(g.outcome) || telling(f) - telling(g),
  );
  const first = new Map<string, Finding>();
  for (const finding of grave) {
    const question = JSON.stringify([finding.finding, finding.part]);
    if (!first.has(question)) first.set(question, finding);
  }
  return byDanger([...first.values()]);
}

/** What to say first: of what fails, else of what asks for caution, the most dangerous; null when everything passes. */
export function gravest(report: CheckReport): Finding | null {
  const findings = onceEach(deciding(report));
  const verdict = gravestOf(findings);
  return verdict === null || verdict === "pass"
    ? null
    : (findings.find(({ outcome }) => outcome === verdict) ?? null);
}
