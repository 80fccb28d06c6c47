import type { Cabinet } from "@startgap/cabinet";
import {
  type BoxHeat,
  type FuseWindow,
  gravestOf,
  gravities,
  type HeatReport,
  type ProtectionFinding,
  type ProtectionReport,
} from "@startgap/study";
import type { Screen } from "../io.ts";
import { caution } from "./cautions.ts";
import { verdictLines } from "./findings.ts";
import { count, rated } from "./numbers.ts";
import { type Paint, painter } from "./paint.ts";
import { table } from "./table.ts";
import { labelled, wrap } from "./wrap.ts";

const HEADS = { danger: "Danger", "stops work": "What stops the work", note: "Worth knowing" } as const;

const troubled = (f: ProtectionFinding): boolean => f.outcome !== "pass";

/** A finding in its sentence, what to change beneath it, and the clause where it is asked for. */
function findingLines(f: ProtectionFinding, width: number, paint: Paint, clauses: boolean): string[] {
  const change = f.change === null ? [] : labelled("         Change: ", f.change, width);
  const basis = clauses ? labelled("         By: ", f.basis, width).map((line) => paint("dim", line)) : [];
  return [...verdictLines(f.outcome, f.says, width, paint), ...change, ...basis];
}

/** Troubles under the head of what they would do, danger first; what passes in one paragraph. */
export function sections(
  findings: readonly ProtectionFinding[],
  width: number,
  paint: Paint,
  all: boolean,
): string[] {
  const troubles = gravities.flatMap((gravity) => {
    const list = findings.filter((f) => f.gravity === gravity && troubled(f));
    if (list.length === 0) return [];
    const lines = list.flatMap((f) => findingLines(f, width, paint, all));
    return ["", paint("bold", HEADS[gravity]), ...lines];
  });
  const passes = findings.filter((f) => !troubled(f));
  if (passes.length === 0) return troubles;
  const lines = all
    ? passes.flatMap((f) => findingLines(f, width, paint, true))
    : verdictLines("pass", passedTogether(passes), width, paint);
  return [...troubles, "", paint("bold", "What passes"), ...lines];
}

const passedTogether = (passes: readonly ProtectionFinding[]): string =>
  [...new Set(passes.map((f) => f.finding))]
    .map(
      (finding) =>
        `${finding}: ${passes
          .filter((f) => f.finding === finding)
          .map((f) => f.part)
          .join(", ")}`,
    )
    .join("; ");

const why = (reasons: readonly string[]): string => (reasons.length === 0 ? "fits" : reasons.join("; "));

/** The ratings tried for one fuse. */
function windowLines(window: FuseWindow, width: number): string[] {
  const rows = window.candidates.map((c) => [
    `${rated(c.rating_A)} A${c.rating_A === window.fitted_A ? ", fitted" : ""}`,
    c.holds ? "holds" : "may melt",
    c.protects ? "protects" : "too large",
    why(c.reasons),
  ]);
  return ["", ...table([[window.part, "start", "protection", "why"], ...rows], width)];
}

function boxLines(box: BoxHeat, width: number): string[] {
  const rows = box.losses.map((l) => [
    l.part,
    `${Math.round(l.loss_W)} W`,
    l.assumed ? "usual" : "as stated",
  ]);
  return ["", ...table([["lost in the box", "heat", ""], ...rows], width)];
}

/** The gravest in one line. */
function answer(findings: readonly ProtectionFinding[]): string {
  const fails = findings.filter((f) => f.outcome === "fail").length;
  const doubts = findings.filter((f) => f.outcome === "caution").length;
  if (fails > 0) return `${count(fails, "thing")} to change, and ${doubts} to look at.`;
  return doubts > 0
    ? `Nothing fails; ${count(doubts, "thing")} to look at.`
    : "Everything that was judged passes.";
}

/** Protection and heat for a person, as lines. */
export function protectText(
  cabinet: Cabinet,
  report: ProtectionReport,
  heat: HeatReport,
  screen: Screen,
  all: boolean,
): string[] {
  const paint = painter(screen.colour);
  const { width } = screen;
  const findings = [...report.findings, ...heat.findings];
  const verdict = gravestOf(findings) ?? "pass";
  const notes = [...new Set([...report.notes, ...heat.notes])];
  return [
    ...verdictLines(verdict, answer(findings), width, paint, "bold"),
    ...wrap(cabinet.title, width).map((line) => paint("dim", line)),
    ...sections(findings, width, paint, all),
    ...report.windows.flatMap((window) => windowLines(window, width)),
    ...(heat.box === null || !all ? [] : boxLines(heat.box, width)),
    "",
    ...notes.flatMap((note) => wrap(note, width)).map((line) => paint("dim", line)),
    ...wrap(caution(cabinet.circuit), width).map((line) => paint("dim", line)),
  ];
}
