import type { Assumption, Cabinet, RangedQuantity } from "@startgap/cabinet";
import { space } from "../format.ts";
import { html, type Inside, type Markup } from "./markup.ts";
import { placeOf, type Stated, statedOf, statedOfWhole, statedParts } from "./stated.ts";
import { headOf, scrolling } from "./table.ts";
import { notKnown } from "./words.ts";

const HEAD = ["Part and quantity", "Value", "Plausible range", "Grade", "Basis"] as const;

interface Line {
  readonly what: string;
  readonly value: string;
  readonly range: string;
  readonly grade: string;
  readonly basis: string;
}

/** Four digits: what the file says stands beside it as it was typed. */
const digits = (value: number): string => `${Number(value.toPrecision(4))}`;

function rangeWords({ low, high, unit }: RangedQuantity): string {
  if (unit === "") return `${digits(low)} to ${digits(high)}`;
  return `${digits(low)} to ${digits(high)}${space}${unit}`;
}

const rangesByPath = ({ ranges }: Cabinet): ReadonlyMap<string, RangedQuantity> =>
  new Map(ranges.map((range) => [range.path, range]));

const statedLine =
  (ranges: ReadonlyMap<string, RangedQuantity>) =>
  ({ path, what, value, grade }: Stated): Line => {
    const range = ranges.get(path);
    return {
      what,
      value,
      range: range === undefined ? notKnown : rangeWords(range),
      grade,
      basis: "cabinet file",
    };
  };

interface Group {
  readonly heading: Inside;
  readonly lines: readonly Line[];
}

const assumedLine = ({ what, value, range, grade, basis }: Assumption): Line => ({
  what,
  value,
  range: range ?? notKnown,
  grade,
  basis,
});

/** What belongs to no part: all else that the file says, and what was taken for it. */
function linesOfWhole(cabinet: Cabinet): Line[] {
  const names = new Set(statedParts(cabinet).map(({ name }) => name));
  const line = statedLine(rangesByPath(cabinet));
  const rest = cabinet.assumptions.filter(({ part }) => !names.has(part));
  return [
    ...statedOfWhole(cabinet).map(line),
    ...rest.map((one) => assumedLine({ ...one, what: `${one.part}, ${one.what}` })),
  ];
}

/** What is stated of a part first, then what was taken instead of what is not. */
function linesOf(cabinet: Cabinet): { heading: Markup; lines: readonly Line[] }[] {
  const line = statedLine(rangesByPath(cabinet));
  return statedParts(cabinet).map((part, i) => ({
    heading: html`<bdi>${String(part.name)}</bdi>: ${placeOf(part)}`,
    lines: [
      ...statedOf(part, i).map(line),
      ...cabinet.assumptions.filter((one) => one.part === part.name).map(assumedLine),
    ],
  }));
}

/** Parts of which the same is known stand under one heading. */
function groupsOf(cabinet: Cabinet): Group[] {
  const same = new Map<string, { headings: Markup[]; lines: readonly Line[] }>();
  for (const { heading, lines } of linesOf(cabinet)) {
    const key = JSON.stringify(lines);
    const group = same.get(key);
    if (group === undefined) same.set(key, { headings: [heading], lines });
    else group.headings.push(heading);
  }
  const groups = [...same.values()].map(({ headings, lines }) => ({
    heading: headings.map((heading, i) => (i === 0 ? heading : [html`<br>`, heading])),
    lines,
  }));
  const whole = { heading: "The whole cabinet", lines: linesOfWhole(cabinet) };
  return whole.lines.length > 0 ? [whole, ...groups] : groups;
}

const rowOf = ({ what, value, range, grade, basis }: Line): Markup =>
  html`<tr class="${grade}"><th scope="row">${what}</th><td dir="auto">${value}</td><td>${range}</td><td>${grade}</td><td>${basis}</td></tr>\n`;

/** Every input with its grade: what the file states, and what was taken for what it does not. */
export function inputsSection(cabinet: Cabinet): Markup {
  const says = "Inputs, part by part";
  const bodies = groupsOf(cabinet).map(
    ({ heading, lines }) => html`<tbody>
<tr class="group"><th scope="rowgroup" colspan="${HEAD.length}">${heading}</th></tr>
${lines.map(rowOf)}</tbody>
`,
  );
  const notes =
    cabinet.notes.length === 0
      ? null
      : html`<h3>Warnings of the reader</h3>\n<ul>\n${cabinet.notes.map((note) => html`<li dir="auto">${note}</li>\n`)}</ul>\n`;
  return html`<section id="inputs" aria-labelledby="inputs-heading">
<h2 id="inputs-heading">Inputs</h2>
<p>Grades: <em>plate</em> was read off a nameplate, <em>measured</em> on site, <em>stated</em> is any other value of the
cabinet file; <em>table</em> comes from the standard or handbook named, <em>assumed</em> was taken because nothing better is
known. Measure or state what is assumed and the answer gets better.</p>
${scrolling(says, html`<table class="inputs">\n<caption>${says}</caption>\n${headOf(HEAD)}${bodies}</table>\n`)}${notes}</section>
`;
}
