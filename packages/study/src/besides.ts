import type { Cabinet } from "@startgap/cabinet";
import { cases } from "./cases/cases.ts";
import type { DipMap } from "./cases/dipResults.ts";
import { dips } from "./cases/dips.ts";
import type { CasesReport } from "./cases/results.ts";
import { isFailure } from "./failure.ts";
import { failures } from "./failures/failures.ts";
import type { FailureReport } from "./failures/results.ts";
import type { StudyOptions } from "./options.ts";

/** What a report tells beside its check. */
export interface Besides {
  readonly failures?: FailureReport;
  readonly cases?: CasesReport;
  readonly dips?: DipMap;
}

/** Every single failure, every case and the dips of a cabinet; what it has not, or what could not be finished, is left out. */
export function besides(cabinet: Cabinet, options: StudyOptions = {}): Besides {
  const [alone, told, dipped] = [failures(cabinet, options), cases(cabinet, options), dips(cabinet, options)];
  return {
    ...(isFailure(alone) ? {} : { failures: alone }),
    ...(isFailure(told) ? {} : { cases: told }),
    ...(isFailure(dipped) || "skipped" in dipped ? {} : { dips: dipped }),
  };
}
