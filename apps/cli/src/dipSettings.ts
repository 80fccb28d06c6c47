import type { Issue } from "@startgap/cabinet";
import { type CaseKind, caseKinds } from "@startgap/study";
import { bare, nearestTo } from "./named.ts";
import { numberOf, secondsOf } from "./time.ts";

/** The options of cases and dips, as typed. */
export interface DipFlags {
  readonly left?: string;
  readonly length?: string;
  readonly tries?: string;
  readonly case?: readonly string[];
}

export interface DipSettings {
  readonly dip?: { readonly left: number; readonly length_s: number };
  readonly tries?: number;
  readonly only?: readonly CaseKind[];
}

const typed = (text: string): string => JSON.stringify(text.slice(0, 80));

/** "40" and "40 %" are 0.4 of nominal. */
function leftOf(text: string): number | Issue {
  const value = numberOf(text.trim().replace(/\s*%$/, ""));
  if (value !== null && value < 100) return value / 100;
  const expected = 'what is left of the voltage in percent, from 0 to below 100, as "40"';
  return { path: "--left", expected, received: typed(text) };
}

function lengthOf(text: string): number | Issue {
  const value = secondsOf(text);
  if (value !== null && value > 0 && value <= 3600) return value;
  return { path: "--length", expected: 'a time above 0 s, up to 1 h, as "100 ms"', received: typed(text) };
}

function triesOf(text: string): number | Issue {
  const value = numberOf(text);
  if (value !== null && Number.isInteger(value) && value >= 1 && value <= 20) return value;
  return { path: "--tries", expected: "a whole number from 1 to 20, as 5", received: typed(text) };
}

/** "low line, power-return" as names of cases. */
function kindsOf(names: readonly string[]): (CaseKind | Issue)[] {
  const each = names.flatMap((text) => text.split(","));
  return each.map((name): CaseKind | Issue => {
    const found = caseKinds.find((kind) => bare(kind) === bare(name));
    if (found !== undefined) return found;
    const nearest = nearestTo(name, caseKinds);
    const issue = {
      path: "--case",
      expected: `one of ${caseKinds.join(", ")}`,
      received: typed(name.trim()),
    };
    return nearest === undefined ? issue : { ...issue, nearest };
  });
}

const isIssue = (value: unknown): value is Issue => typeof value === "object";

/** Both of a dip, or neither. */
function missing({ left, length }: DipFlags): Issue[] {
  if ((left === undefined) === (length === undefined)) return [];
  const [path, other] = left === undefined ? ["--left", "--length"] : ["--length", "--left"];
  return [{ path, expected: `it beside ${other}: a dip has a depth and a length`, received: "nothing" }];
}

/** The typed options in SI, and everything that is wrong with them. */
export function readDipSettings(flags: DipFlags): { settings: DipSettings; issues: readonly Issue[] } {
  const left = flags.left === undefined ? undefined : leftOf(flags.left);
  const length_s = flags.length === undefined ? undefined : lengthOf(flags.length);
  const tries = flags.tries === undefined ? undefined : triesOf(flags.tries);
  const kinds = flags.case === undefined ? [] : kindsOf(flags.case);
  const issues = [...missing(flags), ...[left, length_s, tries, ...kinds].filter(isIssue)];
  if (issues.length > 0) return { settings: {}, issues };
  const settings: DipSettings = {
    ...(typeof left === "number" && typeof length_s === "number" ? { dip: { left, length_s } } : {}),
    ...(typeof tries === "number" ? { tries } : {}),
    ...(flags.case === undefined ? {} : { only: kinds.filter((kind): kind is CaseKind => !isIssue(kind)) }),
  };
  return { settings, issues };
}
