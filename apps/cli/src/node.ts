import { accessSync, constants, existsSync, mkdirSync, readFileSync, statSync } from "node:fs";
import { dirname } from "node:path";
import { debuglog } from "node:util";
import { findBrowser, printPdf } from "./browser.ts";
import type { Io, Printer, Screen } from "./io.ts";
import { writeAll } from "./write.ts";

const debug = debuglog("startgap");

/** Lines longer than this tire the eye; shorter than that nothing fits. */
const WIDEST = 100;
const NARROWEST = 40;

/** Colour only on a terminal that wants it: https://no-color.org, and "dumb" terminals have none. */
function screen(stream: NodeJS.WriteStream): Screen {
  const terminal = stream.isTTY === true;
  const { NO_COLOR, TERM, COLUMNS } = process.env;
  const columns = stream.columns ?? (Number(COLUMNS) || WIDEST);
  return {
    write: (text) => void stream.write(text),
    terminal,
    colour: terminal && (NO_COLOR ?? "") === "" && TERM !== "dumb",
    width: Math.min(WIDEST, Math.max(NARROWEST, columns)),
  };
}

async function readStdin(): Promise<string> {
  const chunks: Buffer[] = [];
  for await (const chunk of process.stdin) chunks.push(Buffer.from(chunk));
  return Buffer.concat(chunks).toString("utf8");
}

/** Why nothing can be written at a path, before anything is tried. */
export function obstacle(path: string): string | null {
  try {
    const old = statSync(path, { throwIfNoEntry: false });
    if (old?.isDirectory()) return "a folder";
    if (old !== undefined) accessSync(path, constants.W_OK);
    if (old === undefined || old.isFile()) accessSync(dirname(path), constants.W_OK);
    return null;
  } catch (error) {
    return reasonOf(error);
  }
}

const reasons: Readonly<Record<string, string>> = {
  ENOENT: "no such file or folder",
  EACCES: "not permitted",
  EPERM: "not permitted",
  EROFS: "not permitted: the disk is read-only",
  EISDIR: "a folder",
  ENOTDIR: "a path through something that is no folder",
  ENOSPC: "no room on the disk",
  ENAMETOOLONG: "a name that is too long",
};

/** An error of the file system or the like, which carries a code, and not one of the program. */
export const isSystemError = (error: unknown): error is NodeJS.ErrnoException =>
  error instanceof Error && "syscall" in error && "code" in error;

/** An error in words. */
export function reasonOf(error: unknown): string {
  const code = isSystemError(error) ? (error.code ?? "") : "";
  return reasons[code] ?? (error instanceof Error ? error.message : String(error));
}

/** jsdom takes 0.4 s to load, so only a picture loads it. */
async function emptyDocument(): Promise<Document> {
  const { JSDOM } = await import("jsdom");
  return new JSDOM("<!doctype html><body></body>").window.document;
}

function printer(): Printer | string {
  const browser = findBrowser(process.env);
  return "missing" in browser ? browser.missing : (html) => printPdf(browser.path, html);
}

/** Year, month and day by the clock on the wall, as ISO 8601 writes them. */
function today(): string {
  const now = new Date();
  const two = (value: number): string => String(value).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** The real world: this process, its files and its terminal. */
export function nodeIo(): Io {
  return {
    out: screen(process.stdout),
    err: screen(process.stderr),
    read: async (path) => (path === "-" ? readStdin() : readFileSync(path, "utf8")),
    exists: existsSync,
    obstacle,
    writeAll,
    makeFolder: (path) => void mkdirSync(path, { recursive: true }),
    document: emptyDocument,
    printer,
    today,
    clock_ms: () => performance.now(),
    trace: (error) => debug("%O", error),
  };
}
