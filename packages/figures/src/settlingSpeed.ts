/** Where a motor that accelerates from rest comes to stay: the geometry of two curves, no more. */

/** One voltage's curves over speed; the point at which the start switch opens stands twice, before and after. */
export interface SpeedCurve {
  /** As "115 V" or "sagged to 92 V". */
  readonly says: string;
  /** Ascending from rest. */
  readonly speed_rpm: readonly number[];
  readonly torque_Nm: readonly number[];
  readonly current_A: readonly number[];
}

/** What the load asks; ascending in speed, straight between its points, level beyond them. */
export interface LoadCurve {
  readonly speed_rpm: readonly number[];
  readonly torque_Nm: readonly number[];
}

/**
 * The first speed from rest at which the motor's torque no longer exceeds what the load asks; null when there is none
 * on the curve. A switch that recloses and fluctuating loads are not looked at. Checked by test/settlingSpeed.test.ts.
 */
export function settlingSpeed_rpm(curve: SpeedCurve, load: LoadCurve): number | null {
  const surplus = curve.speed_rpm.map((rpm, i) => curve.torque_Nm[i] - torqueAt_Nm(load, rpm));
  const short = surplus.findIndex((value) => value <= 0);
  if (short === -1) return null;
  if (short === 0) return curve.speed_rpm[0];
  const [a, b] = [surplus[short - 1], surplus[short]];
  const [from, to] = [curve.speed_rpm[short - 1], curve.speed_rpm[short]];
  return from + ((to - from) * a) / (a - b);
}

export function torqueAt_Nm({ speed_rpm, torque_Nm }: LoadCurve, rpm: number): number {
  if (torque_Nm.length === 0) return 0;
  const after = speed_rpm.findIndex((value) => value >= rpm);
  if (after <= 0) return torque_Nm[after === -1 ? torque_Nm.length - 1 : 0];
  const part = (rpm - speed_rpm[after - 1]) / (speed_rpm[after] - speed_rpm[after - 1]);
  return torque_Nm[after - 1] + part * (torque_Nm[after] - torque_Nm[after - 1]);
}
