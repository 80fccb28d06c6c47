/** Reports of the example cabinets, and of one with names that somebody will choose. */

import { createHash } from "node:crypto";
import { type Cabinet, examples, parseCabinet, writeCabinet } from "@startgap/cabinet";
import { type Check, cases, check, dips, failures, isFailure } from "@startgap/study";
import { JSDOM } from "jsdom";
import { type ReportInput, reportHtml } from "../src/index.ts";
import { newPage } from "./window.ts";

export const sha256 = (text: string): string => createHash("sha256").update(text, "utf8").digest("hex");

export function cabinetOf(text: string): Cabinet {
  const read = parseCabinet(text);
  if ("issues" in read) throw new Error(JSON.stringify(read.issues));
  return read.cabinet;
}

export const exampleText = (key: string): string => examples.find((example) => example.key === key)!.text;

export function checked(cabinet: Cabinet): Check {
  const result = check(cabinet, { delayStep_s: 0.5 });
  if (isFailure(result)) throw new Error(result.failed);
  return result;
}

/** Everything that a report of a cabinet is made of. */
export function inputOf(cabinet: Cabinet, changes: Partial<ReportInput> = {}): ReportInput {
  const alone = failures(cabinet);
  const told = cases(cabinet);
  const dipped = dips(cabinet, { left: [0, 0.6, 0.9], lengths_s: [0.01, 0.05, 0.5] });
  return {
    page: newPage(),
    cabinet,
    check: changes.check ?? checked(cabinet),
    failures: isFailure(alone) ? undefined : alone,
    cases: isFailure(told) ? undefined : told,
    dips: isFailure(dipped) || "skipped" in dipped ? undefined : dipped,
    options: {},
    version: "1.2.3",
    digest: sha256(writeCabinet(cabinet.file)),
    date: "2026-03-04",
    fileName: "shed.cabinet.json",
    ...changes,
  };
}

/** A report as a reader's document would have it; nothing in it is run. */
export const parsed = (text: string): Document => new JSDOM(text).window.document;

export const reported = (input: ReportInput): Document => parsed(reportHtml(input));

/** Words of an element with every run of blanks as one. */
export const words = (element: Element | null | undefined): string =>
  (element?.textContent ?? "").replace(/\s+/g, " ").trim();

/** Cells of the row that a heading opens, anywhere beneath an element; null without such a row. */
export function cellsBeside(root: ParentNode | null, heading: string): string[] | null {
  const rows = [...(root?.querySelectorAll("tr") ?? [])];
  const row = rows.find((one) => words(one.querySelector("th")) === heading);
  return row === undefined ? null : [...row.querySelectorAll("td")].map(words);
}

/** The same value with one text in place of another wherever it stands, in keys too; columns stay as they are. */
export function renamed<T>(value: T, from: string, to: string): T {
  if (typeof value === "string") return value.replaceAll(from, to) as T;
  if (Array.isArray(value)) return value.map((one) => renamed(one, from, to)) as T;
  if (typeof value !== "object" || value === null || ArrayBuffer.isView(value)) return value;
  const entries = Object.entries(value);
  return Object.fromEntries(
    entries.map(([key, one]) => [key.replaceAll(from, to), renamed(one, from, to)]),
  ) as T;
}
