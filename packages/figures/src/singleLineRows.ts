/** A tree of parts as rows: a chain runs straight down, a branch steps aside. */

import { type Finding, verdicts } from "@startgap/study";
import { caseWords } from "./overlayWords.ts";

/** What the sketch needs to know of a part. */
export interface SketchPart {
  readonly name: string;
  /** Kind of part, as "motor". */
  readonly is: string;
  /** Name of what feeds it; absent for the supply. */
  readonly fedBy?: string;
  readonly leg?: "first" | "second" | "both";
}

export interface SketchRow {
  readonly part: SketchPart;
  /** Steps aside from the root. */
  readonly depth: number;
  /** Row of what feeds it; null for a root. */
  readonly parent: number | null;
  /** The leg of a midpoint transformer that it hangs on; null elsewhere. */
  readonly leg: "first" | "second" | null;
  /** Findings about it, worst first. */
  readonly findings: readonly Finding[];
}

/** Rows in the order of a walk from the supply; parts that hang on nothing known are roots of their own. */
export function sketchRows(parts: readonly SketchPart[], findings: readonly Finding[]): SketchRow[] {
  const told = withCases(findings);
  const names = new Set(parts.map(({ name }) => name));
  const fed = new Map<string, SketchPart[]>();
  for (const part of parts)
    if (part.fedBy !== undefined) fed.set(part.fedBy, [...(fed.get(part.fedBy) ?? []), part]);
  const rows: SketchRow[] = [];
  const seen = new Set<SketchPart>();
  const visit = (part: SketchPart, depth: number, parent: number | null) => {
    if (seen.has(part)) return;
    seen.add(part);
    const own = rows.length;
    rows.push({
      part,
      depth,
      parent,
      leg: legOf(part, rows[parent ?? -1]),
      findings: worstFirst(told, part.name),
    });
    const branches = fed.get(part.name) ?? [];
    for (const branch of branches) visit(branch, branches.length > 1 ? depth + 1 : depth, own);
  };
  for (const part of parts) if (part.fedBy === undefined || !names.has(part.fedBy)) visit(part, 0, null);
  for (const part of parts) visit(part, 0, null);
  return rows;
}

/** Parts further down say a leg too, but hang on the one that their feeder hangs on. */
function legOf({ leg }: SketchPart, feeder: SketchRow | undefined): SketchRow["leg"] {
  const halves = feeder?.part.is === "autotransformer" && leg !== "both";
  return halves ? (leg ?? "first") : null;
}

/** Findings of several cases say which one they are about. */
function withCases(findings: readonly Finding[]): readonly Finding[] {
  if (new Set(findings.map((finding) => finding.case)).size < 2) return findings;
  return findings.map((finding) => ({ ...finding, says: `${finding.says} (${caseWords[finding.case]})` }));
}

function worstFirst(findings: readonly Finding[], name: string): Finding[] {
  const own = findings.filter(({ part }) => part === name);
  return own.sort((a, b) => verdicts.indexOf(a.outcome) - verdicts.indexOf(b.outcome));
}
