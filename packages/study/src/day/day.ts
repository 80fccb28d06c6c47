import type { Cabinet } from "@startgap/cabinet";
import type { StudyFailure } from "../failure.ts";
import type { StudyOptions } from "../options.ts";
import type { Outage } from "./calls.ts";
import { courseOf } from "./course.ts";
import { reportOf } from "./report.ts";
import type { DayReport, Season } from "./results.ts";

export interface DayOptions extends StudyOptions {
  /** Default summer. */
  readonly season?: Season;
  /** Length from midnight on, h, above 0; default 24. */
  readonly hours?: number;
  /** Free air drawn from every receiver all day; default: as the file states it, else a usual day's work. */
  readonly demand_m3ps?: number;
  /** Calls an hour where no pressure switch calls, 1 to 30; default 4, each for half of its time. */
  readonly callsPerHour?: number;
  /** The supply goes away for a while. */
  readonly outage?: Outage;
}

/**
 * A day of a cabinet: every start simulated in the envelope, what is between two starts moved on in closed form.
 *
 * Receivers and pressure switches call, or the clock where there are none. Each start's heat and each second of a start
 * winding go into the temperatures of motors, transformers and the box, these into the air around the fuses, and that
 * into the current at which they melt: a start in a hot afternoon brings a fuse nearer to melting than one at night.
 *
 * @returns figures, columns and findings; or one sentence that says when, where and why it could not be finished
 *
 * Limitations: resistances do not follow the temperatures; one body a motor, two a transformer; the box has one air;
 * time constants are usual values. Checked by packages/study/test/day and tests/invariants/day.test.ts.
 */
export function day(cabinet: Cabinet, options: DayOptions = {}): DayReport | StudyFailure {
  const steps = dayInSteps(cabinet, options);
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
    options.onProgress?.(value);
  }
}

/** The same in steps of at most five minutes of the day, which hand out how much is done: for callers that must breathe. */
export function* dayInSteps(
  cabinet: Cabinet,
  options: DayOptions = {},
): Generator<number, DayReport | StudyFailure> {
  const course = courseOf(cabinet, options);
  for (;;) {
    const failure = course.next();
    if (failure !== null) return failure;
    if (course.done()) return reportOf(course.told());
    yield course.fraction();
  }
}
