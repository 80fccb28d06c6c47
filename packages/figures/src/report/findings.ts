import { type CheckReport, deciding, type Finding, onceEach, unheld } from "@startgap/study";
import { html, type Inside, type Markup } from "./markup.ts";
import { type Row, table } from "./table.ts";
import { caseName, figure, limit, verdict } from "./words.ts";

/** A finding's sentence; the name it begins with keeps its own reading direction. */
export function sentenceOf({ part, says }: Finding): Inside {
  return says.startsWith(part) ? [html`<bdi>${part}</bdi>`, says.slice(part.length)] : says;
}

/** The sentence, and what to change where something is to be. */
const toldIn = (finding: Finding): Inside =>
  finding.change === null ? sentenceOf(finding) : [sentenceOf(finding), ` Change: ${finding.change}`];

const head = ["Finding", "Verdict", "Case", "Value", "Limit", "Basis of the limit"];

function rowOf(finding: Finding, { cases }: CheckReport): Row {
  const own = cases.find((one) => one.case === finding.case);
  return [
    toldIn(finding),
    verdict(finding.outcome),
    own === undefined ? finding.case : caseName(own),
    figure(finding.value, finding.unit),
    limit(finding.limit, finding.unit),
    finding.basis,
  ];
}

const tableOf = (says: string, findings: readonly Finding[], report: CheckReport): Markup =>
  table({
    says,
    head,
    rows: onceEach(findings).map((finding) => rowOf(finding, report)),
    class: "findings",
  });

/** Every judged question, danger first, with its figure, its limit and the basis of the limit. */
export function findingsSection(report: CheckReport): Markup {
  const without = unheld(report);
  const reason =
    without.length === 0
      ? null
      : tableOf("All at once, without the delay: why the second motor waits", without, report);
  return html`<section id="findings" aria-labelledby="findings-heading">
<h2 id="findings-heading">Findings</h2>
${tableOf("The way the cabinet is run, the gravest case of every question", deciding(report), report)}${reason}</section>
`;
}
