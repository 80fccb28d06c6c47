import { answer } from "./answer.ts";
import { casesSection } from "./cases.ts";
import { cautionSection } from "./cautions.ts";
import { failuresSection } from "./failures.ts";
import { figuresSection } from "./figuresSection.ts";
import { findingsSection } from "./findings.ts";
import type { ReportInput } from "./input.ts";
import { inputsSection } from "./inputs.ts";
import { html, type Markup, trusted } from "./markup.ts";
import { sourceSection } from "./source.ts";
import { storiesSection } from "./stories.ts";
import { reportStyle } from "./style.ts";
import { testSheet } from "./testSheet.ts";
import { titleBlock } from "./titleBlock.ts";

/** Nothing may be run or fetched; the page's own rules are all that is let in, and a blank icon keeps a server unasked. */
const POLICY =
  "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'";

const chapters: readonly (readonly [id: string, title: string])[] = [
  ["answer", "Recommended setting"],
  ["findings", "Findings"],
  ["cases", "Cases"],
  ["figures", "Figures"],
  ["inputs", "Inputs"],
  ["stories", "What else may happen"],
  ["failures", "If one device opens"],
  ["test-sheet", "Test sheet"],
  ["cautions", "Cautions"],
  ["source", "To make it again"],
];

/** Links to the chapters that are there. */
function contents(body: Markup): Markup {
  const there = chapters.filter(([id]) => body.markup.includes(`<section id="${id}"`));
  return html`<nav aria-label="Contents"><ul>${there.map(([id, title]) => html`<li><a href="#${id}">${title}</a></li>`)}</ul></nav>\n`;
}

function bodyOf(input: ReportInput): Markup {
  const { cabinet, check } = input;
  const main = html`${answer(input)}${findingsSection(check.report)}${casesSection(check.report)}${figuresSection(input)}${inputsSection(cabinet)}${storiesSection(input.cases)}${failuresSection(input.failures)}${testSheet(input)}${cautionSection(cabinet)}${sourceSection(input)}`;
  return html`${titleBlock(input)}${contents(main)}<main>\n${main}</main>\n`;
}

/**
 * A check as one HTML file for an inspector: title block, recommended setting, findings with limits and bases, cases,
 * figures, inputs with their grades, what else may happen, single failures, a test sheet, cautions, and the cabinet file itself.
 *
 * The file runs nothing, fetches nothing and says so in its content security policy. Whatever the cabinet calls its
 * parts stays words. It prints on A4 and Letter without cut figures; a sketch of very many parts is shrunk to a page.
 *
 * @throws RangeError for a digest that is not 64 hexadecimal digits
 *
 * Checked by packages/figures/test/report.test.ts.
 */
export function reportHtml(input: ReportInput): string {
  const { cabinet, version, digest, paper } = input;
  if (!/^[0-9a-f]{64}$/.test(digest))
    throw new RangeError(`invalid digest: ${digest} (expected 64 hexadecimal digits)`);
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${POLICY}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="generator" content="startgap ${version}">
<title>${cabinet.title}: start study</title>
<link rel="icon" href="data:,">
<style>
${trusted(reportStyle(digest, paper))}
</style>
</head>
<body>
${bodyOf(input)}</body>
</html>
`.markup;
}
