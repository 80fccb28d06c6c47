import type { Cabinet } from "@startgap/cabinet";
import { type CheckReport, gravest } from "@startgap/study";
import type { Screen } from "../io.ts";
import { assumptionCount, assumptionLines } from "./assumptions.ts";
import { caseRows } from "./cases.ts";
import { caution } from "./cautions.ts";
import { adviceSentence } from "./delayMap.ts";
import { findingLines, togetherLines, verdictLines } from "./findings.ts";
import { setting } from "./numbers.ts";
import { type Paint, painter } from "./paint.ts";
import { table } from "./table.ts";
import { wrap } from "./wrap.ts";

export interface Detail {
  /** Every passing finding with its own sentence. */
  readonly all: boolean;
  /** Every assumed value. */
  readonly assumptions: boolean;
}

/** The delay that was simulated, when it is another than the recommended one: "instead of 6 s". */
function instead(report: CheckReport): string {
  const now = report.cases.find((c) => c.case === "staggered")?.delay_s;
  const { recommended_s } = report.delay;
  if (now === undefined || now === recommended_s || recommended_s === 0) return "";
  return gravest(report)?.outcome === "fail"
    ? ` The delay simulated here is ${setting(now)}.`
    : ` At ${setting(now)}, the delay simulated here, nothing fails.`;
}

/** The answer first: the gravest trouble and the delay, or the delay alone when nothing fails. */
function answer(report: CheckReport, width: number, paint: Paint): string[] {
  const worst = gravest(report);
  const clear = worst?.outcome !== "fail" && report.delay.recommended_s === null ? "Nothing fails. " : "";
  const delay = `${clear}${adviceSentence(report.delay)}${instead(report)}`;
  if (worst?.outcome !== "fail") return verdictLines(worst?.outcome ?? "pass", delay, width, paint, "bold");
  return [...verdictLines("fail", worst.says, width, paint, "bold"), ...wrap(delay, width)];
}

const section = (heading: string, lines: readonly string[], paint: Paint): string[] =>
  lines.length === 0 ? [] : ["", paint("bold", heading), ...lines];

/** A whole check for a person, as lines. */
export function checkText(cabinet: Cabinet, report: CheckReport, screen: Screen, detail: Detail): string[] {
  const { width } = screen;
  const paint = painter(screen.colour);
  const { assumptions } = cabinet;
  return [
    ...answer(report, width, paint),
    ...wrap(report.title, width).map((line) => paint("dim", line)),
    ...section("Findings", findingLines(report, width, paint, detail.all), paint),
    ...section("All at once, without the delay", togetherLines(report, width, paint), paint),
    ...section("Cases", table(caseRows(report), width), paint),
    ...section(
      "Notes",
      cabinet.notes.flatMap((note) => wrap(note, width)),
      paint,
    ),
    ...(detail.assumptions ? section("Assumed", assumptionLines(assumptions, width), paint) : []),
    "",
    ...(detail.assumptions ? [] : wrap(assumptionCount(assumptions), width)),
    ...wrap(caution(cabinet.circuit), width).map((line) => paint("dim", line)),
  ];
}
