import { extname, resolve } from "node:path";
import { type Cabinet, type Issue, issueText, parseCabinet } from "@startgap/cabinet";
import type { StudyFailure, StudyOptions } from "@startgap/study";
import type { Io } from "./io.ts";
import { isSystemError, reasonOf } from "./node.ts";
import { readSettings, type SettingFlags } from "./settings.ts";
import { exit } from "./status.ts";
import { plain } from "./text/plain.ts";

/** A file a command is asked to write, and the option that asked. */
export interface Wanted {
  readonly flag: string;
  readonly path: string | undefined;
  /** "-" stands for standard output. */
  readonly orStdout?: boolean;
  /** What is written, as its name should end: ".svg". */
  readonly ending?: string;
}

/** What a command was given. */
export interface Given {
  readonly file: string;
  readonly flags?: SettingFlags;
  readonly wanted?: readonly Wanted[];
  /** What the command itself found wrong with its arguments. */
  readonly issues?: readonly Issue[];
}

export interface Prepared {
  readonly cabinet: Cabinet;
  readonly options: StudyOptions;
}

/** Everything that is wrong, a line each, on the error stream. */
export function refuse(issues: readonly Issue[], io: Io, file?: string): number {
  const lines = issues.map((issue) => plain(issueText(issue)));
  const found = issues.length === 1 ? "1 error" : `${issues.length} errors`;
  const head = file === undefined ? found : `${file === "-" ? "standard input" : plain(file)}: ${found}`;
  io.err.write(`startgap: ${head}; nothing was written\n${lines.map((line) => `  ${line}\n`).join("")}`);
  return exit.badInput;
}

/** The sentence of a solver that could not finish. */
export function giveUp(failure: StudyFailure, io: Io): number {
  io.err.write(`startgap: ${plain(failure.failed)}\n`);
  return exit.unfinished;
}

/** A page where a cabinet file is looked for is a report, which holds one; figures are loaded for no other file. */
async function cabinetText(text: string): Promise<{ text: string } | { issues: readonly Issue[] }> {
  if (!/^\ufeff?\s*</.test(text)) return { text };
  const { cabinetInReport } = await import("@startgap/figures");
  const held = cabinetInReport(text);
  const expected = "a cabinet file, or a report that holds one";
  return held === null
    ? { issues: [{ path: "", expected, received: "a page without one" }] }
    : { text: held };
}

/** A cabinet file or a report, or what is wrong with it or in the way of reading it. */
export async function readCabinet(
  file: string,
  io: Io,
): Promise<{ cabinet: Cabinet } | { issues: readonly Issue[] }> {
  if (file === "-" && io.err.terminal) io.err.write("Reading a cabinet file from standard input.\n");
  try {
    const read = await cabinetText(await io.read(file));
    return "issues" in read ? read : parseCabinet(read.text);
  } catch (error) {
    if (!isSystemError(error)) throw error;
    const received = `${JSON.stringify(file.slice(0, 80))}, ${reasonOf(error)}`;
    return { issues: [{ path: "", expected: "a cabinet file that can be read", received }] };
  }
}

/** Endings that say what is in a file: another than what is written would mislead whoever opens it. */
const TELLING = [".svg", ".png", ".jpg", ".jpeg", ".gif", ".webp", ".pdf", ".html", ".htm", ".csv", ".json"];

/** Why a name does not suit what is written under it; null when it does. */
function misnamed(path: string, ending: string | undefined): string | null {
  const own = extname(path).toLowerCase();
  const suits = own === ending || (own === ".htm" && ending === ".html");
  return ending === undefined || suits || !TELLING.includes(own) ? null : `a name that ends in ${ending}`;
}

function outputIssues(file: string, wanted: readonly Wanted[], io: Io): Issue[] {
  const taken = new Map([[resolve(file), "the cabinet file itself"]]);
  return wanted.flatMap(({ flag, path, orStdout, ending }) => {
    if (path === undefined || (path === "-" && orStdout)) return [];
    const clash = path === "-" ? "standard output, which carries the answer" : taken.get(resolve(path));
    taken.set(resolve(path), `the file of ${flag}`);
    const why = clash ?? io.obstacle(path);
    const shown = JSON.stringify(path.slice(0, 80));
    if (why !== null)
      return [{ path: flag, expected: "a file that can be written", received: `${shown}, ${why}` }];
    const expected = misnamed(path, ending);
    return expected === null ? [] : [{ path: flag, expected, received: shown }];
  });
}

/**
 * Settings, output files and the cabinet file, read before any work: all their errors are told at once, and
 * nothing is written when there is one.
 *
 * @returns what to work with, or the exit status
 */
export async function prepare(given: Given, io: Io): Promise<Prepared | number> {
  const { file, flags = {}, wanted = [] } = given;
  const settings = readSettings(flags);
  const parsed = await readCabinet(file, io);
  const issues = [
    ...(given.issues ?? []),
    ...("issues" in settings ? settings.issues : []),
    ...outputIssues(file, wanted, io),
    ...("issues" in parsed ? parsed.issues : []),
  ];
  if ("issues" in settings || "issues" in parsed || issues.length > 0) return refuse(issues, io, file);
  return { cabinet: parsed.cabinet, options: settings.options };
}
