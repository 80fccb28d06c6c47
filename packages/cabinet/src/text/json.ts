import type { Issue } from "../issue.ts";
import { at, received } from "../shape/shape.ts";

/** Deepest nesting of lists and objects that is read. */
export const DEEPEST = 20;

/** More repeated keys than this are not listed one by one. */
const MOST_REPEATED = 20;

interface Scan {
  readonly text: string;
  at: number;
  readonly issues: Issue[];
}

/** Thrown and caught inside this file alone: the text ends to be JSON at `at`. */
interface Stop {
  readonly stop: { readonly at: number; readonly expected: string };
}

const isStop = (error: unknown): error is Stop =>
  typeof error === "object" && error !== null && "stop" in error;

/**
 * Reads JSON text as `JSON.parse` does, but says in words where it stops being JSON, reports a key that stands
 * twice in one object, and refuses to nest deeper than 20. A byte order mark before the text is let pass.
 *
 * @returns the value, or the issues with the line and column of each
 */
export function parseJson(text: string): { readonly value: unknown } | { readonly issues: readonly Issue[] } {
  const scan: Scan = { text, at: text.startsWith("\ufeff") ? 1 : 0, issues: [] };
  try {
    const value = valueAt(scan, "", 0);
    skipBlank(scan);
    if (scan.at < text.length) fail(scan, "nothing after the closing bracket");
    return scan.issues.length > 0 ? { issues: scan.issues } : { value };
  } catch (error) {
    if (!isStop(error)) throw error;
    return { issues: [...scan.issues, stopIssue(text, error.stop)] };
  }
}

function stopIssue(text: string, stop: Stop["stop"]): Issue {
  const rest = text.slice(stop.at, stop.at + 30).split(/[\r\n]/)[0]!;
  const found = stop.at >= text.length ? "the end of the file" : received(rest === "" ? "a line end" : rest);
  return { path: lineAndColumn(text, stop.at), expected: stop.expected, received: found };
}

/** "line 3, column 2", counted from 1. */
export function lineAndColumn(text: string, index: number): string {
  const before = text.slice(0, index).split(/\r\n|\r|\n/);
  const bom = before.length === 1 && text.startsWith("\ufeff") ? 1 : 0;
  return `line ${before.length}, column ${before.at(-1)!.length + 1 - bom}`;
}

function fail(scan: Scan, expected: string): never {
  const stop: Stop = { stop: { at: scan.at, expected } };
  throw stop;
}

const blank = /[ \t\r\n]*/y;

function skipBlank(scan: Scan): void {
  blank.lastIndex = scan.at;
  blank.exec(scan.text);
  scan.at = blank.lastIndex;
}

function valueAt(scan: Scan, path: string, depth: number): unknown {
  skipBlank(scan);
  const c = scan.text[scan.at];
  if (c === "{" || c === "[") {
    if (depth >= DEEPEST) fail(scan, `lists and objects nested no deeper than ${DEEPEST}`);
    return c === "{" ? objectAt(scan, path, depth + 1) : listAt(scan, path, depth + 1);
  }
  return c === '"' ? stringAt(scan) : wordAt(scan);
}

const word = /(?:true|false|null|-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?)(?![\w.+-])/y;

function wordAt(scan: Scan): unknown {
  word.lastIndex = scan.at;
  const match = word.exec(scan.text);
  if (match === null) fail(scan, 'a value: text in double quotes, a number, true, false, null, "{" or "["');
  scan.at = word.lastIndex;
  return JSON.parse(match[0]);
}

function stringAt(scan: Scan): string {
  const { text, at: start } = scan;
  let end = start + 1;
  while (end < text.length && text[end] !== '"') end += text[end] === "\\" ? 2 : 1;
  try {
    const value = JSON.parse(text.slice(start, end + 1)) as string;
    scan.at = end + 1;
    return value;
  } catch {
    return fail(
      scan,
      'text in double quotes, on one line, with \\" for a quote and \\\\ for a backslash in it',
    );
  }
}

/** Steps over a comma, and returns false; or over the closing bracket, and returns true. */
function closes(scan: Scan, bracket: string): boolean {
  skipBlank(scan);
  const c = scan.text[scan.at];
  if (c !== "," && c !== bracket) fail(scan, `"," or "${bracket}"`);
  scan.at += 1;
  return c === bracket;
}

function listAt(scan: Scan, path: string, depth: number): unknown[] {
  scan.at += 1;
  const items: unknown[] = [];
  skipBlank(scan);
  if (scan.text[scan.at] === "]") return closes(scan, "]") ? items : items;
  do items.push(valueAt(scan, at(path, items.length), depth));
  while (!closes(scan, "]"));
  return items;
}

function objectAt(scan: Scan, path: string, depth: number): object {
  scan.at += 1;
  const entries = new Map<string, unknown>();
  skipBlank(scan);
  if (scan.text[scan.at] === "}") return closes(scan, "}") ? {} : {};
  do {
    const key = keyAt(scan, path, entries);
    entries.set(key, valueAt(scan, at(path, key), depth));
  } while (!closes(scan, "}"));
  return Object.fromEntries(entries);
}

function keyAt(scan: Scan, path: string, entries: ReadonlyMap<string, unknown>): string {
  skipBlank(scan);
  const start = scan.at;
  if (scan.text[start] !== '"') fail(scan, "a key in double quotes");
  const key = stringAt(scan);
  if (entries.has(key) && scan.issues.length < MOST_REPEATED) {
    const place = `a second one at ${lineAndColumn(scan.text, start)}`;
    scan.issues.push({ path: at(path, key), expected: "each key once in an object", received: place });
  }
  skipBlank(scan);
  if (scan.text[scan.at] !== ":") fail(scan, '":" after the key');
  scan.at += 1;
  return key;
}
