import { cautionLine } from "./cautions.ts";
import type { ReportInput } from "./input.ts";
import { html, type Markup } from "./markup.ts";
import { facts } from "./table.ts";
import { notKnown } from "./words.ts";

/** Whoever signs fills these in: the program does not know them. */
const blanks = ["Prepared by", "Prepared for", "Site or drawing number"] as const;

/** What the report is about, what made it, and room for who made it. */
export function titleBlock({ cabinet, date, version, digest, check }: ReportInput): Markup {
  const held = check.report.cases.find((one) => one.case === "staggered");
  const supply = cabinet.circuit.parts.find((part) => part.is === "supply");
  const rows = [
    ["Date", date],
    [
      "Supply",
      supply === undefined ? notKnown : `${supply.voltage_V} V, ${supply.frequency_Hz} Hz, single-phase`,
    ],
    ["Delay simulated", held === undefined ? "none: one motor" : `${held.delay_s} s`],
    ["Program", `startgap ${version}`],
    ["Input digest", html`<code>${digest}</code> (SHA-256 of the cabinet file at the end)`],
  ];
  return html`<header>
<p class="kind">Start study of a single-phase power cabinet</p>
<h1 dir="auto">${cabinet.title}</h1>
<div class="title-block">${facts(rows)}${facts(blanks.map((name) => [name, html`<span class="blank"></span>`]))}</div>
${cautionLine(cabinet)}</header>
`;
}
