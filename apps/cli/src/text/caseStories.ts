import type { Cabinet } from "@startgap/cabinet";
import {
  type CaseFinding,
  type CasesReport,
  type CaseTold,
  type FindingGravity,
  gravestOf,
  gravities,
} from "@startgap/study";
import type { Screen } from "../io.ts";
import { caution } from "./cautions.ts";
import { troubleLines, verdictLines } from "./findings.ts";
import { count } from "./numbers.ts";
import { type Paint, painter } from "./paint.ts";
import { labelled, wrap } from "./wrap.ts";

const HEADS: Readonly<Record<FindingGravity, string>> = {
  danger: "Danger",
  "stops work": "What stops the work",
  note: "Worth knowing",
};

/** A finding with the case that it is of; a sentence that does not begin with its part speaks for itself. */
const inItsCase = ({ says, part, case: kind }: CaseFinding): string =>
  says.startsWith(part) ? `${kind}, ${says}` : says;

/** Findings of one question and case that come out alike are told once: the first in full, the others by name. */
function together(findings: readonly CaseFinding[]): CaseFinding[] {
  const first = new Map<string, { finding: CaseFinding; others: string[] }>();
  for (const finding of findings) {
    const key = JSON.stringify([finding.case, finding.finding, finding.outcome, finding.change]);
    const known = first.get(key);
    if (known === undefined) first.set(key, { finding, others: [] });
    else known.others.push(finding.part);
  }
  return [...first.values()].map(({ finding, others }) =>
    others.length === 0
      ? finding
      : { ...finding, says: `${finding.says} Much the same: ${others.join(", ")}.` },
  );
}

/** Those that ask for the same change next to each other, so that it is said once. */
function byChange(findings: readonly CaseFinding[]): CaseFinding[] {
  const changes = [...new Set(findings.map((f) => f.change))];
  return [...findings].sort((a, b) => changes.indexOf(a.change) - changes.indexOf(b.change));
}

function troubles(report: CasesReport, width: number, paint: Paint, all: boolean): string[] {
  return gravities.flatMap((gravity) => {
    const own = report.findings.filter((f) => f.gravity === gravity && f.outcome !== "pass");
    if (own.length === 0) return [];
    const told = (all ? own : together(own)).map((f) => ({ ...f, says: inItsCase(f) }));
    const sorted = (["fail", "caution"] as const).flatMap((outcome) =>
      byChange(told.filter((f) => f.outcome === outcome)),
    );
    return ["", paint("bold", HEADS[gravity]), ...troubleLines(sorted, width, paint)];
  });
}

/** What a case is, with its verdict; with `all` also every finding that passes. */
function caseLines(told: CaseTold, width: number, paint: Paint, all: boolean): string[] {
  const passes = all ? told.findings.filter((f) => f.outcome === "pass") : [];
  return [
    ...verdictLines(told.outcome ?? "pass", `${told.case}: ${told.about}`, width, paint),
    ...passes.flatMap((f) => labelled("           ", f.says, width)).map((line) => paint("dim", line)),
  ];
}

function skippedLines(cases: readonly CaseTold[], width: number, paint: Paint): string[] {
  const skipped = cases.filter((told) => told.skipped !== null);
  if (skipped.length === 0) return [];
  const lines = skipped.flatMap((told) => wrap(`${told.case}: ${told.skipped}`, width, 2));
  return ["", paint("bold", "Not told"), ...lines];
}

/** The answer in one line. */
function answer({ cases, findings }: CasesReport): string {
  const told = cases.filter((one) => one.skipped === null);
  const fails = told.filter((one) => one.outcome === "fail").length;
  const dangers = findings.filter((f) => f.outcome === "fail" && f.gravity === "danger").length;
  const of = count(told.length, "case");
  if (told.length === 0) return "This cabinet has none of these cases.";
  if (fails === 0)
    return findings.some((f) => f.outcome === "caution")
      ? `Of ${of} none fails; some ask for care.`
      : `All of ${of} pass.`;
  return `Of ${of} ${fails} ${fails === 1 ? "fails" : "fail"}${dangers === 0 ? "" : `, with ${count(dangers, "danger")}`}.`;
}

/** Every case for a person, as lines: danger first, then what stops the work, then case by case. */
export function casesText(cabinet: Cabinet, report: CasesReport, screen: Screen, all: boolean): string[] {
  const paint = painter(screen.colour);
  const { width } = screen;
  const told = report.cases.filter((one) => one.skipped === null);
  return [
    ...verdictLines(gravestOf(report.findings) ?? "pass", answer(report), width, paint, "bold"),
    ...wrap(cabinet.title, width).map((line) => paint("dim", line)),
    ...troubles(report, width, paint, all),
    ...(told.length === 0 ? [] : ["", paint("bold", "Case by case")]),
    ...told.flatMap((one) => caseLines(one, width, paint, all)),
    ...skippedLines(report.cases, width, paint),
    "",
    ...wrap(caution(cabinet.circuit), width).map((line) => paint("dim", line)),
  ];
}
