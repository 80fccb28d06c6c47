import type { Recorder } from "./record.ts";

/** How steps are taken: by odex's extrapolation, or by a Runge-Kutta method of order 8. */
export type Method = "extrapolation" | "runge-kutta";

export interface ArcSettings<M> {
  readonly method: Method;
  readonly tolerance: number;
  readonly initialStep: number;
  readonly maxStep: number;
  readonly maxSteps: number;
  readonly recorder: Recorder<M> | null;
  /** Ascending times at which the solution is handed out without disturbing it. */
  readonly snapshots: readonly number[];
  readonly onSnapshot: (t: number, y: readonly number[], mode: M) => void;
  /** True ends the run. Asked after every step. */
  readonly cancelled: (t: number) => boolean;
  readonly count: Counts;
}

/** Work done, for tests of efficiency and for reports. */
export interface Counts {
  evaluations: number;
  steps: number;
  arcs: number;
  events: number;
}
