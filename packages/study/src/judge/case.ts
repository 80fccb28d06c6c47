import type { CaseName, CaseReport } from "../results.ts";
import type { Telling } from "../telling.ts";
import { contactorResult } from "./contactor.ts";
import { fuseResult } from "./fuse.ts";
import { motorResult } from "./motor.ts";
import { pointResult } from "./point.ts";
import { sourceResult } from "./source.ts";
import { worstMoment } from "./worst.ts";

/** Reads a told story and reports it; runs nothing. */
export function caseReport(told: Telling, name: CaseName): CaseReport {
  const { parts } = told.plant.layout.circuit;
  const source = sourceResult(told);
  return {
    case: name,
    delay_s: Number.isFinite(told.delay_s) ? told.delay_s : 0,
    duration_s: told.duration_s,
    ended: told.outcome.says,
    motors: parts.flatMap((p, i) => (p.is === "motor" ? [motorResult(told, i, p)] : [])),
    fuses: parts.flatMap((p, i) => (p.is === "fuse" ? [fuseResult(told, i, p)] : [])),
    points: parts.flatMap((p, i) => (p.is === "load" ? [pointResult(told, i, p)] : [])),
    contactors: parts.flatMap((p, i) => (p.is === "contactor" ? [contactorResult(told, i, p)] : [])),
    worst: worstMoment(told),
    ...(source === null ? {} : { source }),
  };
}
