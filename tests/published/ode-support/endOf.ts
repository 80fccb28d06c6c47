import { type Run, type RunOptions, run } from "@startgap/ode";

/** A smooth problem by its rate of change alone. */
export type Rate = (t: number, y: readonly number[], rate: number[]) => void;

export type Method = NonNullable<RunOptions<null>["method"]>;
export const METHODS: readonly Method[] = ["extrapolation", "runge-kutta"];

/** Runs a smooth problem from 0. */
export function endOf(
  rate: Rate,
  start: readonly number[],
  tEnd: number,
  tolerance: number,
  method: Method,
): Run<null> {
  const plant = {
    stateNames: start.map((_, i) => `y${i + 1}`),
    derivative: (t: number, y: readonly number[], _: null, out: number[]) => rate(t, y, out),
    guards: () => [],
    guardValues: () => {},
    scheduled: () => [],
    reduce: (_: unknown, y: readonly number[]) => ({ y, mode: null }),
  };
  return run(plant, { t: 0, y: start, mode: null }, tEnd, { tolerance, method });
}

/** Largest |got - want|/(absolute + |want|) over the printed components. */
export const error = (got: readonly number[], want: readonly number[]): number =>
  Math.max(...want.map((value, i) => Math.abs(got[i] - value) / (1 + Math.abs(value))));
