/** The reading line: what every curve of an overlay says at one time. */

import type { CaseName, Check, Quantity } from "@startgap/study";
import { bisectRight } from "d3";
import { type Curve, contentsOf, type Selection } from "./overlaySelection.ts";

export interface Reading {
  readonly case: CaseName;
  readonly quantity: Quantity;
  readonly part: string;
  /** In V, A, rpm or as a fraction; null outside the story and where nothing is connected yet. */
  readonly value: number | null;
  /** Nominal voltage of a voltage; null elsewhere. */
  readonly nominal_V: number | null;
}

/**
 * Values of the curves that an overlay of the same selection shows, at one time.
 *
 * Between samples the curve is straight, as drawn; at a jump the value after it counts.
 * Checked by test/readings.test.ts.
 *
 * @param time_s  on the story's clock
 */
export function valuesAt(check: Check, time_s: number, selection: Selection = {}): Reading[] {
  return contentsOf(check, selection).flatMap(({ quantity, nominal_V, curves }) =>
    curves.map((curve) => ({
      case: curve.case,
      quantity,
      part: curve.part,
      value: valueAt(curve, time_s),
      nominal_V,
    })),
  );
}

/** A curve's value at a time, or null where it has none. */
export function valueAt(curve: Curve, time_s: number): number | null {
  const { time_s: times, values } = curve;
  const after = bisectRight(times as number[], time_s);
  const before = after - 1;
  if (before < curve.first || (after === times.length && time_s > times[before])) return null;
  const value = after === times.length ? values[before] : between(times, values, before, time_s);
  return Number.isFinite(value) ? value : null;
}

function between(times: ArrayLike<number>, values: ArrayLike<number>, i: number, t: number): number {
  const part = (t - times[i]) / (times[i + 1] - times[i]);
  return part === 0 ? values[i] : values[i] + part * (values[i + 1] - values[i]);
}
