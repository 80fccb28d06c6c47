import type { CaseFinding, CasesReport, CaseTold } from "@startgap/study";
import { html, type Inside, type Markup } from "./markup.ts";
import { type Row, table } from "./table.ts";
import { count, notKnown, verdict } from "./words.ts";

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** What a case comes to: its gravest finding, and what is much the same of other parts. */
function gravest({ findings }: CaseTold): { says: string; change: string | null } {
  const [first] = findings;
  if (first === undefined || first.outcome === "pass") return { says: "", change: null };
  const alike = ({ finding, outcome, part }: CaseFinding): boolean =>
    finding === first.finding && outcome === first.outcome && part !== first.part;
  const others = findings.filter(alike).map(({ part }) => part);
  const same = others.length === 0 ? "" : ` Much the same: ${others.join(", ")}.`;
  return { says: ` ${capital(first.says)}${same}`, change: first.change };
}

function rowOf(told: CaseTold): Row {
  const { says, change } = gravest(told);
  const outcome: Inside = told.outcome === null ? notKnown : verdict(told.outcome);
  return [capital(told.case), outcome, `${capital(told.about)}${says}`, change ?? notKnown];
}

/** What the day, the line and a failed part bring, case by case; nothing where it was not asked for. */
export function storiesSection(report: CasesReport | undefined): Markup | null {
  const told = report?.cases.filter(({ skipped }) => skipped === null) ?? [];
  if (report === undefined || told.length === 0) return null;
  const says = `${count(told.length, "case")}, each with its gravest finding`;
  const head = ["Case", "Verdict", "What happens", "What to change"];
  const untold = report.cases
    .filter(({ skipped }) => skipped !== null)
    .map((one) => html`<li>${capital(one.case)}: ${one.skipped ?? ""}</li>\n`);
  const list = untold.length === 0 ? null : html`<p>Not told of this cabinet:</p>\n<ul>\n${untold}</ul>\n`;
  return html`<section id="stories" aria-labelledby="stories-heading">
<h2 id="stories-heading">What else a day may bring</h2>
<p>The same cabinet under another story, or with one thing failed, by the same simulation.</p>
${table({ says, head, rows: told.map(rowOf), class: "failures" })}${list}</section>
`;
}
