import { findingsOf } from "../findings.ts";
import type { CaseName, CaseReport, Finding } from "../results.ts";
import type { Stagger } from "../stagger.ts";
import type { Telling } from "../telling.ts";
import { caseReport } from "./case.ts";
import { belowTimes } from "./times.ts";

/** A told story with what is made of it. */
export interface Judged {
  readonly name: CaseName;
  readonly told: Telling;
  readonly report: CaseReport;
  readonly findings: readonly Finding[];
}

const nothing: ReadonlySet<string> = new Set();

/** Reports and judges a told story. */
export function judged(told: Telling, name: CaseName, stagger: Stagger): Judged {
  const report = caseReport(told, name);
  const { circuit } = told.plant.layout;
  const heldBack = name === "one" && stagger.possible ? stagger.heldBack : nothing;
  return { name, told, report, findings: findingsOf({ report, circuit, below: belowTimes(told), heldBack }) };
}

export const passes = (findings: readonly Finding[]): boolean =>
  findings.every((finding) => finding.outcome !== "fail");
