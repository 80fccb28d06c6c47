import type { Impedance } from "./conventions.ts";
import type { Machine } from "./machine.ts";

/** What a motor is to the network and to its shaft at one slip, per volt at its terminals. */
export interface MachineAt {
  /** Line admittance, siemens. */
  gr: number;
  gi: number;
  /** Torque over the square of the terminal voltage, N m/V^2. */
  torque: number;
  /** Main and auxiliary winding current per volt, siemens. */
  mainR: number;
  mainI: number;
  auxiliaryR: number;
  auxiliaryI: number;
  /** Halves of the rotor's forward and backward branches, ohm: Zf and Zb. */
  forwardR: number;
  backwardR: number;
}

export const blankMachineAt = (): MachineAt => ({
  gr: 0,
  gi: 0,
  torque: 0,
  mainR: 0,
  mainI: 0,
  auxiliaryR: 0,
  auxiliaryI: 0,
  forwardR: 0,
  backwardR: 0,
});

/** Series impedance of the auxiliary branch with the start switch closed or open; null when it is open. */
export function auxiliaryBranch(m: Machine, switchClosed: boolean): Impedance | null {
  if (m.auxiliary === null) return null;
  const { r_ohm, x_ohm } = m.auxiliary;
  const { startCapacitor: start, runCapacitor: run } = m;
  if (!switchClosed && run === null) return null;
  const capacitor = switchClosed ? (run === null ? start : start === null ? run : parallel(start, run)) : run;
  if (capacitor === null) return { r_ohm, x_ohm };
  return { r_ohm: r_ohm + capacitor.r_ohm, x_ohm: x_ohm - capacitor.x_ohm };
}

/** Two capacitors side by side, both given as r and capacitive reactance. */
function parallel(a: Impedance, b: Impedance): Impedance {
  const sr = a.r_ohm + b.r_ohm;
  const sx = a.x_ohm + b.x_ohm;
  const q = 1 / (sr * sr + sx * sx);
  const pr = a.r_ohm * b.r_ohm - a.x_ohm * b.x_ohm;
  const px = a.r_ohm * b.x_ohm + a.x_ohm * b.r_ohm;
  return { r_ohm: (pr * sr + px * sx) * q, x_ohm: (px * sr - pr * sx) * q };
}

/**
 * The double-revolving-field circuit of a motor, prepared for the hot loop: no allocation, no division by
 * slip.
 *
 * Each field sees half of j xm in parallel with r2/sigma + j x2, sigma = s forward and 2 - s backward:
 *
 *     Z = (j xm/2)(r2 + j sigma x2) / (r2 + j sigma (xm + x2))
 *
 * which is regular at sigma = 0. With A = Zmain + Zf + Zb, D = Zaux + a^2 (Zf + Zb), B = a (Zf - Zb):
 *
 *     Im = (D + jB)/(AD - B^2)   Ia = (A - jB)/(AD - B^2)   per volt
 *     T  = (|Im - j a Ia|^2 Rf - |Im + j a Ia|^2 Rb) / omega_sync
 *
 * Rotor values go from running to standstill with the slip, for both fields: r2(s) = running + (standstill -
 * running) min(1, |s|). Saturated leakage paths follow the current, which is high until the motor is up; and
 * the waveform resolution, which has one rotor and not two fields, can hold the same law exactly.
 *
 * Assumes winding transients have died away; no saturation of the main path.
 * Source: Fitzgerald, Kingsley, Umans, Electric Machinery, 6th ed., section 9.3 and 9.4.
 * Checked by packages/circuit/test/machineAdmittance.test.ts against `steadyState` and published points.
 */
export function machineAdmittance(
  m: Machine,
): (slip: number, switchClosed: boolean, into: MachineAt) => void {
  const { main, rotor, rotorAtStandstill: still, magnetising_ohm: xm } = m;
  const a = m.auxiliary?.turnsRatio ?? 0;
  const closed = auxiliaryBranch(m, true);
  const open = auxiliaryBranch(m, false);
  const synchronous = (4 * Math.PI * m.frequency_Hz) / m.poles;
  const perSynchronous = 1 / synchronous;
  const dr2 = still.r_ohm - rotor.r_ohm;
  const dx2 = still.x_ohm - rotor.x_ohm;
  const core = 1 / m.core_ohm;
  return (slip, switchClosed, into) => {
    const nearness = Math.min(1, Math.abs(slip));
    const r2 = rotor.r_ohm + dr2 * nearness;
    const x2 = rotor.x_ohm + dx2 * nearness;
    const sf = slip;
    const sb = 2 - slip;
    const lf = sf * (xm + x2);
    const qf = (0.5 * xm) / (r2 * r2 + lf * lf);
    const fr = qf * xm * sf * r2;
    const fi = qf * (r2 * r2 + sf * x2 * lf);
    const lb = sb * (xm + x2);
    const qb = (0.5 * xm) / (r2 * r2 + lb * lb);
    const br = qb * xm * sb * r2;
    const bi = qb * (r2 * r2 + sb * x2 * lb);
    const sumR = fr + br;
    const sumI = fi + bi;
    const ar = main.r_ohm + sumR;
    const ai = main.x_ohm + sumI;
    const branch = switchClosed ? closed : open;
    into.forwardR = fr;
    into.backwardR = br;
    if (branch === null) {
      mainAlone(ar, ai, core, (fr - br) * perSynchronous, into);
      return;
    }
    const dr = branch.r_ohm + a * a * sumR;
    const di = branch.x_ohm + a * a * sumI;
    const cr = a * (fr - br);
    const ci = a * (fi - bi);
    const detR = ar * dr - ai * di - cr * cr + ci * ci;
    const detI = ar * di + ai * dr - 2 * cr * ci;
    const q = 1 / (detR * detR + detI * detI);
    const nr = dr - ci;
    const ni = di + cr;
    const mr = ar + ci;
    const mi = ai - cr;
    const imR = (nr * detR + ni * detI) * q;
    const imI = (ni * detR - nr * detI) * q;
    const iaR = (mr * detR + mi * detI) * q;
    const iaI = (mi * detR - mr * detI) * q;
    const pR = imR + a * iaI;
    const pI = imI - a * iaR;
    const nR = imR - a * iaI;
    const nI = imI + a * iaR;
    into.mainR = imR;
    into.mainI = imI;
    into.auxiliaryR = iaR;
    into.auxiliaryI = iaI;
    into.gr = imR + iaR + core;
    into.gi = imI + iaI;
    into.torque = ((pR * pR + pI * pI) * fr - (nR * nR + nI * nI) * br) * perSynchronous;
  };
}

/** Without a current in the auxiliary winding: Im = 1/A, T = |Im|^2 (Rf - Rb)/omega_sync per volt squared. */
function mainAlone(ar: number, ai: number, core: number, perSquare: number, into: MachineAt): void {
  const q = 1 / (ar * ar + ai * ai);
  into.mainR = ar * q;
  into.mainI = -ai * q;
  into.auxiliaryR = 0;
  into.auxiliaryI = 0;
  into.gr = ar * q + core;
  into.gi = -ai * q;
  into.torque = q * perSquare;
}

/** The same machine at another frequency: reactances scale, a capacitor's the other way. */
export function atFrequency(m: Machine, frequency_Hz: number): Machine {
  const k = frequency_Hz / m.frequency_Hz;
  if (k === 1) return m;
  const coil = <T extends Impedance>(z: T): T => ({ ...z, x_ohm: z.x_ohm * k });
  const capacitor = (z: Impedance | null): Impedance | null =>
    z === null ? null : { r_ohm: z.r_ohm, x_ohm: z.x_ohm / k };
  return {
    ...m,
    frequency_Hz,
    main: coil(m.main),
    rotor: coil(m.rotor),
    rotorAtStandstill: coil(m.rotorAtStandstill),
    magnetising_ohm: m.magnetising_ohm * k,
    auxiliary: m.auxiliary === null ? null : coil(m.auxiliary),
    startCapacitor: capacitor(m.startCapacitor),
    runCapacitor: capacitor(m.runCapacitor),
  };
}

/** Synchronous speed, rad/s mechanical. */
export const synchronousSpeed_radps = (m: Machine): number => (4 * Math.PI * m.frequency_Hz) / m.poles;
