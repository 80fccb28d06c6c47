/** A straight line through readings: V = open - drop I, and a steady drift of the supply where it shows. */
export interface Line {
  readonly open_V: number;
  readonly drop_ohm: number;
  /** Root of the sum of squares of what each volt read weighs in `drop_ohm`, 1/A. */
  readonly weight_perA: number;
  /** Standard deviation of what the line leaves over, V; 0 when nothing is left to judge it by. */
  readonly scatter_V: number;
}

/** Above this the order of reading and the current go too much together to tell drift from drop. */
const TOO_ALIKE = 0.7;

/**
 * Least squares of volts on amperes, and on the order of reading when the load was taken off and put on again
 * (unloaded, loaded, unloaded): then a supply that drifts steadily does not count as a drop.
 *
 * Normal equations about the means; two regressors are solved in closed form. `weight_perA` is the root of the
 * matching element of the inverse.
 *
 * @param current_A, voltage_V at least two of each, equally many, not all currents equal
 * Checked by packages/cabinet/test/supply-readings.test.ts.
 */
export function lineThrough(current_A: readonly number[], voltage_V: readonly number[]): Line {
  const n = current_A.length;
  const order = current_A.map((_, k) => k);
  const [I, V, t] = [centred(current_A), centred(voltage_V), centred(order)];
  const [II, It, tt] = [dot(I, I), dot(I, t), dot(t, t)];
  const drifts = n > 2 && Math.abs(It) < TOO_ALIKE * Math.sqrt(II * tt);
  const spread = drifts ? II - It ** 2 / tt : II;
  const slope = drifts ? (dot(I, V) - (dot(t, V) * It) / tt) / spread : dot(I, V) / II;
  const drift = drifts ? (dot(t, V) - slope * It) / tt : 0;
  const left = V.map((v, k) => v - slope * I[k]! - drift * t[k]!);
  const freedom = n - (drifts ? 3 : 2);
  return {
    open_V: mean(voltage_V) - slope * mean(current_A),
    drop_ohm: -slope,
    weight_perA: 1 / Math.sqrt(spread),
    scatter_V: freedom > 0 ? Math.sqrt(dot(left, left) / freedom) : 0,
  };
}

const mean = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;

function centred(values: readonly number[]): number[] {
  const middle = mean(values);
  return values.map((v) => v - middle);
}

const dot = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, v, k) => sum + v * b[k]!, 0);
