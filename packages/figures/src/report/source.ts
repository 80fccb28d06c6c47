/** What is needed to make a report again: the command, and the cabinet file itself. */

import { type Cabinet, writeCabinet } from "@startgap/cabinet";
import type { StudyOptions } from "@startgap/study";
import type { ReportInput } from "./input.ts";
import { escaped, html, type Markup, trusted } from "./markup.ts";
import { facts } from "./table.ts";

/** A word of a command line as a POSIX shell takes it back; in quotes unless it is plain. */
const shellWord = (word: string): string =>
  /^[\w./@%+:,][\w./@%+:,-]*$/.test(word) ? word : `'${word.replaceAll("'", "'\\''")}'`;

/** The settings of a study as options of the command; what was left to the program is left to it again. */
function flagsOf(options: StudyOptions): string[] {
  const seconds = (flag: string, value: number | undefined): string[] =>
    value === undefined ? [] : [flag, `'${value} s'`];
  return [
    ...seconds("--delay", options.delay_s),
    ...seconds("--duration", options.duration_s),
    ...(options.tolerance === undefined ? [] : ["--tolerance", `${options.tolerance}`]),
    ...seconds("--longest", options.longestDelay_s),
    ...seconds("--step", options.delayStep_s),
  ];
}

/** A name that begins with a hyphen is no option when it begins with its folder. */
const fileWord = (name: string): string => shellWord(name.startsWith("-") ? `./${name}` : name);

/** The command that makes this report again from its cabinet file. */
export function commandOf({
  fileName,
  options,
  paper,
}: Pick<ReportInput, "fileName" | "options" | "paper">): string {
  const size = paper === undefined ? [] : ["--paper", paper];
  return ["startgap", "report", fileWord(fileName), ...flagsOf(options), ...size, "-o", "report.html"].join(
    " ",
  );
}

const usual = (value: number | undefined, unit: string, when: string): string =>
  value === undefined ? when : `${value}${unit}`;

/** How the report was made, and the cabinet file as it was read, to be taken out again by `cabinetInReport`. */
export function sourceSection(input: ReportInput): Markup {
  const { cabinet, options, version, digest, date, check } = input;
  const held = check.report.cases.find((one) => one.case === "staggered");
  const rows = [
    ["Program", `startgap ${version}`],
    ["Date", date],
    ["Command", html`<code>${commandOf(input)}</code>`],
    [
      "Delay simulated",
      held === undefined ? "none" : usual(options.delay_s, " s", `${held.delay_s} s, as the file has it`),
    ],
    [
      "Length of a story",
      usual(options.duration_s, " s", check.report.cases.map((one) => `${one.duration_s} s`)[0] ?? "none"),
    ],
    ["Solver tolerance", usual(options.tolerance, "", "1e-6, the usual")],
    ["SHA-256 of the cabinet file", html`<code>${digest}</code>`],
  ];
  return html`<section id="source" aria-labelledby="source-heading">
<h2 id="source-heading">To make this report again</h2>
${facts(rows)}<p>Verdicts were checked with a tenfold tighter solver tolerance; one that changed is told as too close to call. This report
can be given to the program in place of the cabinet file that it holds:</p>
<details open><summary>Cabinet file</summary>
<pre id="cabinet-file">${embedded(cabinet)}</pre>
</details>
</section>
`;
}

/** The cabinet file to the last character: what the digest was made of. */
const embedded = (cabinet: Cabinet): Markup => trusted(escaped(writeCabinet(cabinet.file)));

const named: Readonly<Record<string, string>> = { amp: "&", lt: "<", gt: ">", quot: '"', nbsp: "\u00a0" };

/** Undoes what `escaped`, or a browser that saved the page, wrote for a character. */
const plain = (markup: string): string =>
  markup.replace(/&(?:#(\d{1,7})|#x([\da-f]{1,6})|(amp|lt|gt|quot|nbsp));/gi, (all, decimal, hex, name) => {
    if (name !== undefined) return named[name.toLowerCase()];
    const code = decimal === undefined ? Number.parseInt(hex, 16) : Number(decimal);
    return code <= 0x10ffff ? String.fromCodePoint(code) : all;
  });

/**
 * The text of the cabinet file that a report holds, for `parseCabinet`.
 *
 * @param text of a report, also one that a browser saved again
 * @returns null for anything else
 */
export function cabinetInReport(text: string): string | null {
  const found = /<pre\b[^>]*\bid=["']?cabinet-file["']?[^>]*>([^<]*)<\/pre>/i.exec(text);
  return found === null ? null : plain(found[1].replaceAll("\r\n", "\n"));
}
