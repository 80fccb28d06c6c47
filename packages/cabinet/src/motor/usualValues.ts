import type { MotorType } from "./nameplate.ts";
import { HORSEPOWER_W } from "./standardPowers.ts";

/** A usual value with what is plausible about it. */
export interface Usual {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

const usual = (value: number, low: number, high: number): Usual => ({ value, low, high });

/** Types whose capacitor stays in circuit while they run. */
export const hasRunCapacitor = (type: MotorType): boolean =>
  type === "permanent-split-capacitor" || type === "capacitor-start-capacitor-run";

/**
 * Full-load efficiency of a small single-phase motor: 0.61 at 1/4 hp, 0.69 at 1 hp, 0.78 at 5 hp.
 * Common practice, no source; worked textbook motors lie between 0.60 (1/4 hp, Fitzgerald 9.2) and 0.87
 * (about 5 hp with a run capacitor, Fitzgerald 9.5).
 *
 * @param power_W at the shaft, above 0
 */
export function usualEfficiency(power_W: number): Usual {
  const value = Math.min(0.82, Math.max(0.45, 0.69 + 0.055 * Math.log(power_W / HORSEPOWER_W)));
  return usual(value, value - 0.1, value + 0.08);
}

/**
 * Full-load power factor. Common practice, no source; worked textbook motors: 0.57 to 0.69 on the main
 * winding alone, 0.92 with a run capacitor (Guru 10.3, Fitzgerald 9.5).
 */
export function usualPowerFactor(type: MotorType): Usual {
  return hasRunCapacitor(type) ? usual(0.9, 0.75, 0.98) : usual(0.66, 0.5, 0.78);
}

/** Most that efficiency times power factor can be: shaft watts per volt-ampere. Common practice, no source. */
export const mostWattsPerVoltAmpere = (type: MotorType): number => (hasRunCapacitor(type) ? 0.87 : 0.75);

/** Less than this is no motor running at its rating. Common practice, no source. */
export const LEAST_WATTS_PER_VOLT_AMPERE = 0.15;

/** Locked-rotor torque over full-load torque. Common practice, no source. */
export const USUAL_LOCKED_ROTOR_TORQUE: Readonly<Record<MotorType, Usual>> = {
  "split-phase": usual(1.5, 1, 2),
  "capacitor-start": usual(2.5, 1.75, 3.5),
  "capacitor-start-capacitor-run": usual(2.5, 1.75, 3.5),
  "permanent-split-capacitor": usual(0.5, 0.25, 1),
};

/** Breakdown torque over full-load torque. Common practice, no source. */
export const USUAL_BREAKDOWN_TORQUE: Readonly<Record<MotorType, Usual>> = {
  "split-phase": usual(2.25, 1.75, 2.75),
  "capacitor-start": usual(2.25, 1.75, 2.75),
  "capacitor-start-capacitor-run": usual(2.25, 1.75, 2.75),
  "permanent-split-capacitor": usual(2.5, 1.3, 3),
};

/** Common practice, no source. */
export const USUAL_LOCKED_ROTOR_POWER_FACTOR: Usual = usual(0.75, 0.55, 0.95);

/** Rated slip: 1725 of 1800 rpm at 60 Hz, 1425 of 1500 rpm at 50 Hz. Common practice, no source. */
export const usualSlip = (frequency_Hz: number): number => (frequency_Hz < 55 ? 0.05 : 75 / 1800);

/** Switch speeds as fractions of synchronous. Common practice, no source. */
export const USUAL_SWITCH_OPENS: Usual = usual(0.75, 0.65, 0.85);
export const USUAL_SWITCH_CLOSES: Usual = usual(0.45, 0.3, 0.6);
