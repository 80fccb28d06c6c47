import type { MotorType } from "./nameplate.ts";

/** Everything the fit needs of a motor: stated, or taken from tables and usual values. */
export interface FitTargets {
  readonly type: MotorType;
  readonly voltage_V: number;
  readonly frequency_Hz: number;
  readonly poles: number;
  /** Rated slip, per unit. */
  readonly slip: number;
  readonly torque_Nm: number;
  readonly fullLoadCurrent_A: number;
  readonly efficiency: number;
  /** Relative deviation that counts as one in the sum of squares. */
  readonly efficiencySpread: number;
  readonly lockedRotorCurrent_A: number;
  readonly lockedRotorTorque_Nm: number;
  /** Relative deviation that counts as one in the sum of squares. */
  readonly lockedRotorTorqueSpread: number;
  readonly lockedRotorPowerFactor: number;
  readonly breakdownTorque_Nm: number;
  readonly breakdownTorqueSpread: number;
  /** Null where the fit is to choose it, or the type has none. */
  readonly startCapacitor_F: number | null;
  readonly runCapacitor_F: number | null;
}
