export const MOTOR_TYPES = [
  "split-phase",
  "capacitor-start",
  "capacitor-start-capacitor-run",
  "permanent-split-capacitor",
] as const;

/**
 * split-phase: a resistive auxiliary winding, switched off by a centrifugal switch. capacitor-start: a
 * capacitor in series with it. capacitor-start-capacitor-run: a second capacitor keeps it in circuit.
 * permanent-split-capacitor: one capacitor for both, no switch.
 */
export type MotorType = (typeof MOTOR_TYPES)[number];

/**
 * What a plate and its owner say of a single-phase motor. Of `power_W` and `fullLoadCurrent_A` one may be
 * missing; every other figure that is optional has a default, and each default taken is told.
 */
export interface Nameplate {
  readonly voltage_V: number;
  readonly frequency_Hz: number;
  /** At the shaft. */
  readonly power_W?: number | null;
  readonly fullLoadCurrent_A?: number | null;
  readonly speed_rpm?: number | null;
  readonly type?: MotorType | null;
  readonly lockedRotorCurrent_A?: number | null;
  readonly codeLetter?: string | null;
  /** Says how far it may be overloaded for long; changes nothing about the start. */
  readonly serviceFactor?: number | null;
  readonly startCapacitor_F?: number | null;
  readonly runCapacitor_F?: number | null;
  readonly lockedRotorTorque_Nm?: number | null;
  readonly breakdownTorque_Nm?: number | null;
  readonly powerFactor?: number | null;
  readonly efficiency?: number | null;
  /** Of the rotor alone. */
  readonly inertia_kgm2?: number | null;
}
