import type { Issue } from "../issue.ts";
import type { Range } from "../quantity.ts";

/** A JSON Schema (draft 2020-12) or a fragment of one. */
export type JsonSchema = { readonly [key: string]: unknown };

/** A quantity of the file that is only known within a range. */
export interface RangeFound extends Range {
  readonly path: string;
  /** In which the values are: "ohm", "rpm"; "" for a plain number. */
  readonly unit: string;
}

/** What one reading gathers besides the value: everything that is wrong, and every quantity with a range. */
export interface Reading {
  readonly issues: Issue[];
  readonly ranges: RangeFound[];
  /** Values in SI that stand for the ranged quantities at these paths, when variations are read. */
  readonly chosen: ReadonlyMap<string, number>;
}

/**
 * One kind of value in the cabinet file. The same record reads it and describes it in the published schema,
 * so that the two cannot drift apart.
 */
export interface Shape<T> {
  /** Completes "expected ...", with an example. */
  readonly expected: string;
  /** Reads a value. After reporting at least one issue it returns undefined. */
  readonly read: (value: unknown, path: string, reading: Reading) => T | undefined;
  readonly schema: JsonSchema;
}

export type Value<S> = S extends Shape<infer T> ? T : never;

export const reading = (chosen: ReadonlyMap<string, number> = new Map()): Reading => ({
  issues: [],
  ranges: [],
  chosen,
});

/** Reports one problem; to be returned by a shape that could not read. */
export function wrong(
  reading: Reading,
  path: string,
  expected: string,
  value: unknown,
  nearest?: string,
): undefined {
  const issue = { path, expected, received: received(value) };
  reading.issues.push(nearest === undefined ? issue : { ...issue, nearest });
}

const LONGEST = 80;

/** What was found, as text of at most 80 characters. */
export const received = (value: unknown): string => printable(asText(value));

/** Text fit to print on one line: without control characters and marks that turn it, and shortened. */
export function printable(text: string, longest = LONGEST): string {
  const short = text.length > longest ? `${text.slice(0, longest - 1)}…` : text;
  return short.replace(/\p{Cc}|\p{Bidi_Control}|[\u2028\u2029]|\p{Cs}/gu, " ");
}

function asText(value: unknown): string {
  if (value === undefined) return "nothing";
  if (typeof value === "string") return `"${value.slice(0, 2 * LONGEST)}"`;
  if (value === null || typeof value === "boolean") return String(value);
  if (typeof value === "number") return Object.is(value, -0) ? "-0" : String(value);
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value !== "object") return `a ${typeof value}`;
  const keys = Object.keys(value);
  return keys.length === 0
    ? "an empty object"
    : `an object with ${keys
        .slice(0, 4)
        .map((k) => k.slice(0, 30))
        .join(", ")}`;
}

/** `parts[4].circuit` and `main` give `parts[4].circuit.main`; keys that are no plain word are quoted. */
export function at(path: string, key: string | number): string {
  if (typeof key === "number") return `${path}[${key}]`;
  const word = /^[$A-Za-z_][\w$]*$/.test(key) ? key : JSON.stringify(key.slice(0, 60));
  return path === "" ? word : `${path}.${word}`;
}

/** True for an object that is no list. */
export const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null && !Array.isArray(value);
