import type { Cabinet } from "@startgap/cabinet";
import type { Circuit } from "@startgap/circuit";
import { type CaseFinding, type CaseKind, type CasesOptions, type CaseTold, cases } from "../../src/index.ts";
import { cabinetOf } from "../cabinet.ts";

/** One case of an invented circuit, at a tolerance that leaves room for a closed form. */
export function tell(
  of: Circuit,
  kind: CaseKind,
  options: CasesOptions = {},
  more: Partial<Cabinet> = {},
): CaseTold {
  const report = cases({ ...cabinetOf(of), ...more }, { tolerance: 1e-8, ...options, only: [kind] });
  if ("failed" in report) throw new Error(report.failed);
  return report.cases[0];
}

export function finding({ findings }: CaseTold, name: string, part: string): CaseFinding {
  const found = findings.find((one) => one.finding === name && one.part === part);
  if (found === undefined) throw new Error(`no "${name}" of ${part}`);
  return found;
}

/** Asserts nothing: the motor of a told case. */
export function motorOf({ report }: CaseTold, part: string) {
  const found = report?.motors.find((one) => one.part === part);
  if (found === undefined) throw new Error(`no ${part}`);
  return found;
}
