import type { StudyFailure } from "../failure.ts";
import { judged } from "../judge/judged.ts";
import type { CaseReport, Finding, StoryEvent, Verdict } from "../results.ts";
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
  readonly tell: (scene: Scene, pace: Pace) => Told | StudyFailure;
}

export interface Told {
  readonly report: Omit<CaseReport, "case"> | null;
  readonly findings: readonly CaseFinding[];
  readonly events: readonly StoryEvent[];
}

/** Events told of one case; what chatters on is not followed further. */
const MOST_EVENTS = 200;

/**
 * Reports and judges a recorded story like those of `check`.
 *
 * @param origin_s the moment that the case is about: all times count from there
 */
export function toldAs(kind: CaseKind, scene: Scene, told: Telling, origin_s = 0): Told {
  const { report, findings } = judged(told, "staggered", scene.stagger);
  const { case: _, ...rest } = report;
  return {
    report: shifted(rest, origin_s),
    findings: findings.map((finding) => ({ ...finding, case: kind })),
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

const gravity: Readonly<Record<Verdict, number>> = { pass: 0, caution: 1, fail: 2 };

/** The gravest verdict; null of nothing. */
export const gravestOf = (findings: readonly Pick<Finding, "outcome">[]): Verdict | null =>
  findings.reduce<Verdict | null>(
    (worst, { outcome }) => (worst === null || gravity[outcome] > gravity[worst] ? outcome : worst),
    null,
  );

/** Keeps a verdict that a tenfold tighter tolerance confirms; else it becomes a caution that says so. */
export function confirmed(findings: readonly CaseFinding[], tighter: readonly CaseFinding[]): CaseFinding[] {
  return findings.map((finding) => {
    const same = tighter.find((one) => one.finding === finding.finding && one.part === finding.part);
    if (same?.outcome === finding.outcome) return finding;
    return { ...finding, outcome: "caution", says: `${finding.says} Too close to its limit to call.` };
  });
}
