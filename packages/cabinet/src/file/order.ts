import type { Issue } from "../issue.ts";
import { printable } from "../shape/shape.ts";

/** `parts[2].x` before `parts[10].a`: numbers in a path count as numbers. */
export function comparePaths(a: string, b: string): number {
  const [left, right] = [pieces(a), pieces(b)];
  for (let i = 0; i < Math.min(left.length, right.length); i++) {
    const order = comparePieces(left[i]!, right[i]!);
    if (order !== 0) return order;
  }
  return left.length - right.length;
}

const pieces = (path: string): readonly string[] => path.match(/\d+|\D+/g) ?? [];

function comparePieces(a: string, b: string): number {
  const difference = Number(a) - Number(b);
  if (!Number.isNaN(difference)) return difference;
  return a < b ? -1 : a > b ? 1 : 0;
}

const LONGEST_PATH = 200;
const LONGEST_EXPECTED = 600;

function inPrint(issue: Issue): Issue {
  const { path, expected, received, nearest } = issue;
  const clean = {
    path: printable(path, LONGEST_PATH),
    expected: printable(expected, LONGEST_EXPECTED),
    received: printable(received),
  };
  return nearest === undefined ? clean : { ...clean, nearest: printable(nearest) };
}

/** All issues in the order of their places, each once and fit to print, whatever the file holds. */
export function sortIssues(issues: readonly Issue[]): Issue[] {
  const seen = new Set<string>();
  const once = issues.map(inPrint).filter((issue) => {
    const key = `${issue.path}\n${issue.expected}\n${issue.received}`;
    return !seen.has(key) && seen.add(key);
  });
  return once.sort((a, b) => comparePaths(a.path, b.path));
}
