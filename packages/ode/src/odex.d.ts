/** Reads y[component] anywhere inside the step just taken; valid only during the callback it is passed to. */
export type Dense = (component: number, x: number) => number;

/** The part of odex 2.0.4 that this package uses; its own sources do not pass a strict compiler. */
export declare class Solver {
  constructor(dimension: number);
  maxSteps: number;
  initialStepSize: number;
  maxStepSize: number;
  maxExtrapolationColumns: number;
  denseOutput: boolean;
  relativeTolerance: number;
  absoluteTolerance: number;
  solve(
    derivative: (x: number, y: number[]) => number[],
    x: number,
    y: readonly number[],
    xEnd: number,
    /** `false` ends the run; the first call has xOld === x and no interval. */
    onStep: (step: number, xOld: number, x: number, y: number[], dense: Dense) => boolean | undefined,
  ): { y: number[]; outcome: number; nStep: number; nAccept: number; nReject: number; nEval: number };
}
