import type { Outcome } from "@startgap/ode";

/** A study that could not be finished: one sentence that names the time and the cause. */
export interface StudyFailure {
  readonly failed: string;
  readonly at_s: number;
}

export const isFailure = (value: unknown): value is StudyFailure =>
  typeof value === "object" && value !== null && "failed" in value;

/** The endings with which a story has not been told to its end or to a result. */
const UNFINISHED: readonly string[] = ["cancelled", "not finite", "too many steps"];

/** The failure that a run's ending is; null for one that is a result, as endless chatter is. */
export const failureOf = ({ ending, says, t }: Outcome): StudyFailure | null =>
  UNFINISHED.includes(ending) ? { failed: says, at_s: t } : null;
