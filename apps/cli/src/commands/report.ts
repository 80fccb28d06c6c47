import { createHash } from "node:crypto";
import { basename } from "node:path";
import { type Cabinet, type Issue, writeCabinet } from "@startgap/cabinet";
import { type Paper, reportHtml } from "@startgap/figures";
import { besides, type Check, check, gravest, isFailure, tracesCsv } from "@startgap/study";
import manifest from "../../package.json" with { type: "json" };
import type { Io, OutputFile, Printer } from "../io.ts";
import { reasonOf } from "../node.ts";
import { giveUp, type Prepared, prepare } from "../prepare.ts";
import { watched } from "../progress.ts";
import type { SettingFlags } from "../settings.ts";
import { exit, statusOf } from "../status.ts";
import { plain } from "../text/plain.ts";

export interface ReportFlags extends SettingFlags {
  readonly output?: string;
  readonly pdf?: string;
  readonly paper?: string;
  readonly traces?: string;
}

const papers: readonly string[] = ["a4", "letter"] satisfies Paper[];
const isPaper = (name: string): name is Paper => papers.includes(name);

/** What is wrong with the arguments themselves. */
function issuesOf({ output, pdf, paper }: ReportFlags): Issue[] {
  const nowhere: Issue = {
    path: "--output",
    expected: 'the file to write, as "report.html"; or --pdf with one',
    received: "nothing",
  };
  const unknown = (name: string): Issue => ({
    path: "--paper",
    expected: `one of ${papers.join(", ")}`,
    received: JSON.stringify(name.slice(0, 80)),
  });
  return [
    ...(output === undefined && pdf === undefined ? [nowhere] : []),
    ...(paper === undefined || isPaper(paper) ? [] : [unknown(paper)]),
  ];
}

/** Letter is at home where 60 Hz is, with few exceptions. */
function usualPaper({ circuit }: Cabinet): Paper {
  return circuit.parts.some((part) => part.is === "supply" && part.frequency_Hz > 55) ? "letter" : "a4";
}

/** The digest by which a report names its input: of the text that it holds. */
const digestOf = (cabinet: Cabinet): string =>
  createHash("sha256").update(writeCabinet(cabinet.file), "utf8").digest("hex");

/** A report's page, for one paper or for whichever the printer holds. */
async function pageMaker(file: string, ready: Prepared, result: Check, io: Io) {
  const { cabinet, options } = ready;
  const page = await io.document();
  const given = {
    page,
    cabinet,
    check: result,
    ...besides(cabinet, options),
    options,
    version: manifest.version,
    digest: digestOf(cabinet),
    date: io.today(),
    fileName: file === "-" ? "cabinet.json" : basename(file),
  };
  return (paper: Paper | undefined): string => reportHtml({ ...given, paper });
}

const cannotPrint = (why: string, io: Io): number => {
  io.err.write(
    `startgap: no PDF: ${plain(why)}; nothing was written. Without --pdf the report can be printed by hand.\n`,
  );
  return exit.unfinished;
};

/** Where everything went, and what fails. */
function told(files: readonly OutputFile[], result: Check): string {
  const worst = gravest(result.report);
  const written = `Wrote ${files.map(({ path }) => plain(path)).join(", ")}\n`;
  return worst?.outcome === "fail" ? `${written}Fails: ${plain(worst.says)}\n` : written;
}

/** `startgap report FILE -o OUT.html`: everything that an inspector asks for, in one file. */
export async function reportCommand(file: string, flags: ReportFlags, io: Io): Promise<number> {
  const { output, pdf, traces } = flags;
  const wanted = [
    { flag: "--output", path: output, orStdout: true, ending: ".html" },
    { flag: "--pdf", path: pdf, ending: ".pdf" },
    { flag: "--traces", path: traces, ending: ".csv" },
  ];
  const ready = await prepare({ file, flags, wanted, issues: issuesOf(flags) }, io);
  if (typeof ready === "number") return ready;
  const printer = pdf === undefined ? null : io.printer();
  if (typeof printer === "string") return cannotPrint(printer, io);
  const { cabinet, options } = ready;
  const result = watched(io, "Checking", (onProgress) => check(cabinet, { ...options, onProgress }));
  if (isFailure(result)) return giveUp(result, io);
  const make = await pageMaker(file, ready, result, io);
  const paper = flags.paper as Paper | undefined;
  const printed = pdf === undefined ? null : await printedBy(printer, make(paper ?? usualPaper(cabinet)));
  if (typeof printed === "string") return cannotPrint(printed, io);
  const files = [
    ...(output === undefined || output === "-" ? [] : [{ path: output, text: make(paper) }]),
    ...(pdf === undefined || printed === null ? [] : [{ path: pdf, text: printed }]),
    ...(traces === undefined ? [] : [{ path: traces, text: tracesCsv(result.stories) }]),
  ];
  io.writeAll(files);
  io.out.write(output === "-" ? make(paper) : told(files, result));
  return statusOf(result.report);
}

/** The PDF, or why it could not be printed. */
async function printedBy(printer: Printer | null, html: string): Promise<Uint8Array | string | null> {
  if (printer === null) return null;
  try {
    return await printer(html);
  } catch (error) {
    return reasonOf(error);
  }
}
