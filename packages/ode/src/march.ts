import type { Solution } from "./watch.ts";

/** Writes the rates of change of y at t. */
export type Rates = (t: number, y: readonly number[], into: number[]) => void;

/** Called after each step, from tOld to t, where the state is y; ends the march with false. */
export type Visit = (tOld: number, t: number, y: readonly number[], solution: Solution) => boolean;

export interface Pace {
  /** Relative and absolute, of every state. */
  readonly tolerance: number;
  readonly firstStep: number;
  readonly longest: number;
  readonly maxSteps: number;
  /** False: the solution inside a step is never read. */
  readonly dense: boolean;
}

/** How a march ended, and the steps tried. */
export interface March {
  readonly ending: "arrived" | "left" | "too many steps";
  readonly tries: number;
}

/** Takes steps from (t0, y0) towards tEnd. */
export type Integrator = (
  rates: Rates,
  t0: number,
  y0: readonly number[],
  tEnd: number,
  pace: Pace,
  visit: Visit,
) => March;
