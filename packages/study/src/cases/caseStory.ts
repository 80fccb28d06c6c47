import type { StudyFailure } from "../failure.ts";
import { judged } from "../judge/judged.ts";
import type { CaseReport, StoryEvent } from "../results.ts";
import { eventOf } from "../story.ts";
import type { Pace, Telling } from "../telling.ts";
import type { CaseFinding, CaseKind } from "./results.ts";
import type { Scene } from "./scene.ts";

/** One case: what it is, which cabinets have it, and how it is told. */
export interface CaseStory {
  readonly kind: CaseKind;
  readonly about: (scene: Scene) => string;
  /** Why a cabinet has no such story; null when it has. */
  readonly skip: (scene: Scene) => string | null;
  readonly tell: (scene: Scene, pace: Pace) => Told | Skipped | StudyFailure;
}

/** A story that shows only on the way that the cabinet has it not, and why. */
export interface Skipped {
  readonly skipped: string;
}

export interface Told {
  readonly report: Omit<CaseReport, "case"> | null;
  readonly findings: readonly CaseFinding[];
  readonly events: readonly StoryEvent[];
}

/** Events told of one case; what chatters on is not followed further. */
const MOST_EVENTS = 200;

/** What to change in this case, by question, where it is not what helps any start. */
export type Changes = Readonly<Record<string, string>>;

/**
 * Reports and judges a recorded story like those of `check`.
 *
 * @param changes  what helps in this case in place of what helps any start
 * @param origin_s the moment that the case is about: all times count from there
 */
export function toldAs(
  kind: CaseKind,
  scene: Scene,
  told: Telling,
  changes: Changes = {},
  origin_s = 0,
): Told {
  const { report, findings } = judged(told, "staggered", scene.stagger);
  const { case: _, ...rest } = report;
  return {
    report: shifted(rest, origin_s),
    findings: findings.map((finding) => ({
      ...finding,
      case: kind,
      change: finding.change === null ? null : (changes[finding.finding] ?? finding.change),
    })),
    events: told.events.slice(0, MOST_EVENTS).map((event) => {
      const { at_s, ...what } = eventOf(event);
      return { at_s: at_s - origin_s, ...what };
    }),
  };
}

type Report = Omit<CaseReport, "case">;

/** The same report on another clock. */
function shifted(report: Report, origin_s: number): Report {
  if (origin_s === 0) return report;
  const back = <T extends number | null | undefined>(t: T): T =>
    (typeof t === "number" ? t - origin_s : t) as T;
  return {
    ...report,
    duration_s: report.duration_s - origin_s,
    motors: report.motors.map((motor) => ({ ...motor, closed_s: back(motor.closed_s) })),
    fuses: report.fuses.map((fuse) => ({ ...fuse, opened_s: back(fuse.opened_s) })),
    contactors: report.contactors.map((one) => ({ ...one, closed_s: back(one.closed_s) })),
    worst: report.worst === null ? null : { ...report.worst, at_s: back(report.worst.at_s) },
  };
}
