import { type CheckReport, deciding, type Finding, onceEach, unheld, type Verdict } from "@startgap/study";
import { type Paint, type Style, verdictWord } from "./paint.ts";
import { pad } from "./plain.ts";
import { labelled } from "./wrap.ts";

const LABEL = Math.max(...Object.values(verdictWord).map((w) => w.length)) + 2;

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

/** Troubles one by one, each with what to change beneath it; said once where neighbours share it. */
export function troubleLines(
  findings: readonly Pick<Finding, "outcome" | "says" | "change">[],
  width: number,
  paint: Paint,
): string[] {
  return findings.flatMap(({ outcome, says, change }, i) => {
    const shared = change === null || findings[i + 1]?.change === change;
    const advice = shared ? [] : labelled(`${" ".repeat(LABEL)}Change: `, change, width);
    return [...verdictLines(outcome, says, width, paint), ...advice];
  });
}

/**
 * The deciding findings, danger first: troubles one by one, what passes gathered in one paragraph.
 *
 * @param all true to give every passing finding its own sentence
 */
export function findingLines(report: CheckReport, width: number, paint: Paint, all: boolean): string[] {
  const findings = onceEach(deciding(report));
  const single = all ? findings : findings.filter((f) => f.outcome !== "pass");
  const rest = all ? [] : findings.filter((f) => f.outcome === "pass");
  const gathered = rest.length === 0 ? [] : verdictLines("pass", passedTogether(rest), width, paint);
  return [...troubleLines(single, width, paint), ...gathered];
}

/** What goes wrong when everything starts at once, where that is not the way the cabinet is run. */
export function togetherLines(report: CheckReport, width: number, paint: Paint): string[] {
  return onceEach(unheld(report)).flatMap((f) => verdictLines(f.outcome, f.says, width, paint));
}
