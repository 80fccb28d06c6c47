/** A study that could not be finished: one sentence that names the time and the cause. */
export interface StudyFailure {
  readonly failed: string;
  readonly at_s: number;
}

export const isFailure = (value: unknown): value is StudyFailure =>
  typeof value === "object" && value !== null && "failed" in value;
