import type { CheckReport, Finding, Verdict } from "@startgap/study";
import { deciding } from "../status.ts";
import { type Paint, type Style, verdictWord } from "./paint.ts";
import { pad } from "./plain.ts";
import { labelled } from "./wrap.ts";

const gravity: Readonly<Record<Verdict, number>> = { fail: 0, caution: 1, pass: 2 };
const LABEL = Math.max(...Object.values(verdictWord).map((w) => w.length)) + 2;

/** The way the cabinet is run tells more than the first motor alone. */
const telling = (finding: Finding): number => (finding.case === "one" ? 1 : 0);

/** Gravest first, then the case that tells more; equals stay in the order of the report. */
const byGravity = (findings: readonly Finding[]): Finding[] =>
  [...findings].sort((f, g) => gravity[f.outcome] - gravity[g.outcome] || telling(f) - telling(g));

/** One finding a question and part: the gravest of its cases, said once. */
export function once(findings: readonly Finding[]): Finding[] {
  const seen = new Map<string, Finding>();
  for (const finding of byGravity(findings)) {
    const key = JSON.stringify([finding.finding, finding.part]);
    if (!seen.has(key)) seen.set(key, finding);
  }
  return [...seen.values()];
}

/** A verdict and a sentence, the sentence wrapped beside the word. */
export function verdictLines(
  outcome: Verdict,
  says: string,
  width: number,
  paint: Paint,
  style: Style = "usual",
): string[] {
  const word = verdictWord[outcome];
  const lines = labelled(pad(word, LABEL), says, width);
  return lines.map(
    (line, i) =>
      (i === 0 ? paint(outcome, word) : "") + paint(style, i === 0 ? line.slice(word.length) : line),
  );
}

/** What passes, in a line or two: "fuse holds: line fuses; motor starts: compressor 1, compressor 2". */
function passedTogether(passes: readonly Finding[]): string {
  const questions = [...new Set(passes.map((f) => f.finding))];
  return questions
    .map(
      (q) =>
        `${q}: ${passes
          .filter((f) => f.finding === q)
          .map((f) => f.part)
          .join(", ")}`,
    )
    .join("; ");
}

/**
 * The deciding findings in order of gravity: troubles one by one, what passes gathered in one paragraph.
 *
 * @param all true to give every passing finding its own sentence
 */
export function findingLines(report: CheckReport, width: number, paint: Paint, all: boolean): string[] {
  const findings = once(deciding(report));
  const single = all ? findings : findings.filter((f) => f.outcome !== "pass");
  const rest = all ? [] : findings.filter((f) => f.outcome === "pass");
  const gathered = rest.length === 0 ? [] : verdictLines("pass", passedTogether(rest), width, paint);
  return [...single.flatMap((f) => verdictLines(f.outcome, f.says, width, paint)), ...gathered];
}

/** What goes wrong when everything starts at once, where that is not the way the cabinet is run. */
export function togetherLines(report: CheckReport, width: number, paint: Paint): string[] {
  const decides = new Set(deciding(report));
  const others = once(report.findings.filter((f) => !decides.has(f) && f.outcome !== "pass"));
  return others.flatMap((f) => verdictLines(f.outcome, f.says, width, paint));
}

/** The gravest finding, or null when everything passes. */
export function gravest(report: CheckReport): Finding | null {
  const first = once(deciding(report))[0];
  return first === undefined || first.outcome === "pass" ? null : first;
}
