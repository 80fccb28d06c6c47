import type { FailureGravity, FailureReport, FailureRow } from "@startgap/study";
import { html, type Inside, type Markup } from "./markup.ts";
import { type Row, table } from "./table.ts";
import { count, listed } from "./words.ts";

/** More names than these do not help. */
const MOST_NAMES = 6;

const names = (parts: readonly string[]): string =>
  listed(
    parts.length > MOST_NAMES ? [...parts.slice(0, MOST_NAMES), `${parts.length - MOST_NAMES} more`] : parts,
  );

/** Danger is framed like a failed finding: the word and the frame say the same. */
const frames: Readonly<Record<FailureGravity, string>> = {
  danger: "fail",
  "stops work": "caution",
  unnoticed: "caution",
  slight: "pass",
};

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** The sentence without the failure that it begins with: that stands in its own column. */
function leaves({ failure, says, joined }: FailureRow): Inside {
  const opening = `When ${failure}: `;
  const rest = capital(says.startsWith(opening) ? says.slice(opening.length) : says);
  return joined.length === 0
    ? rest
    : `${rest} Dead to a meter across its wires and not safe: ${names(joined)}.`;
}

const rowOf = (row: FailureRow): Row => [
  capital(row.failure),
  html`<span class="verdict ${frames[row.gravity]}">${capital(row.gravity)}</span>`,
  leaves(row),
  row.change,
];

/** Every single failure, gravest first: what it leaves live, and what to change; nothing where it was not asked for. */
export function failuresSection(report: FailureReport | undefined): Markup | null {
  if (report === undefined || report.rows.length === 0) return null;
  const says = `${count(report.rows.length, "single failure")}, gravest first`;
  const head = ["What fails", "Gravity", "What it leaves", "What to change"];
  const notes = report.notes.map((note) => html`<li>${note}</li>\n`);
  return html`<section id="failures" aria-labelledby="failures-heading">
<h2 id="failures-heading">If one device opens or sticks</h2>
<p>Each failure alone, in the cabinet as it is otherwise, by the same simulation.</p>
${table({ says, head, rows: report.rows.map(rowOf), class: "failures" })}${notes.length === 0 ? null : html`<ul>\n${notes}</ul>\n`}</section>
`;
}
