import type { Issue } from "../issue.ts";
import { at, received } from "../shape/shape.ts";
import { DEEPEST } from "../text/json.ts";

/** Keys that would reach into the machinery of the language when copied carelessly. */
const poisonous = new Set(["__proto__", "constructor", "prototype"]);

const MOST_VALUES = 200_000;

interface Copying {
  readonly issues: Issue[];
  left: number;
}

/**
 * A fresh copy of a value as plain lists and objects, so that nothing read later can change, run code or be
 * inherited. Deeper than 20, more than 200,000 values and poisonous keys are reported.
 */
export function plainCopy(value: unknown): { readonly value: unknown; readonly issues: readonly Issue[] } {
  const copying: Copying = { issues: [], left: MOST_VALUES };
  const copied = copy(value, "", 0, copying);
  return { value: copied, issues: copying.issues };
}

function copy(value: unknown, path: string, depth: number, copying: Copying): unknown {
  copying.left -= 1;
  if (copying.left < 0) {
    if (copying.left === -1) report(copying, path, `at most ${MOST_VALUES} values`, "more");
    return null;
  }
  if (typeof value !== "object" || value === null) return value;
  if (depth >= DEEPEST) {
    report(copying, path, `lists and objects nested no deeper than ${DEEPEST}`, received(value));
    return null;
  }
  return Array.isArray(value)
    ? copyList(value, path, depth, copying)
    : copyObject(value, path, depth, copying);
}

function copyList(list: readonly unknown[], path: string, depth: number, copying: Copying): unknown[] {
  const size = Math.min(list.length, MOST_VALUES);
  return Array.from({ length: size }, (_, i) => copy(list[i], at(path, i), depth + 1, copying));
}

function copyObject(object: object, path: string, depth: number, copying: Copying): object {
  const entries = Object.entries(object).filter(([key, one]) => {
    const bad = poisonous.has(key);
    if (bad) report(copying, at(path, key), "a key of the cabinet file", key);
    return !bad && one !== undefined;
  });
  return Object.fromEntries(entries.map(([key, one]) => [key, copy(one, at(path, key), depth + 1, copying)]));
}

function report(copying: Copying, path: string, expected: string, found: string): void {
  copying.issues.push({ path, expected, received: found });
}
