import type { Machine } from "../machine.ts";
import { auxiliaryBranch } from "../machineAdmittance.ts";

/** What the flux linkages of a motor give at one moment. */
export interface AxesAt {
  /** Main and auxiliary winding current. */
  main: number;
  auxiliary: number;
  /** Rotor currents on the main (q) and auxiliary (d) axis, main turns. */
  rotorQ: number;
  rotorD: number;
  /** di/dt = alpha + beta v of the line current, and of the two windings. */
  alphaMain: number;
  betaMain: number;
  alphaAuxiliary: number;
  betaAuxiliary: number;
  /** Rates of the rotor's flux linkages; they do not depend on the terminal voltage. */
  rateQ: number;
  rateD: number;
  torque: number;
  rotorLoss: number;
}

export const blankAxes = (): AxesAt => ({
  main: 0,
  auxiliary: 0,
  rotorQ: 0,
  rotorD: 0,
  alphaMain: 0,
  betaMain: 0,
  alphaAuxiliary: 0,
  betaAuxiliary: 0,
  rateQ: 0,
  rateD: 0,
  torque: 0,
  rotorLoss: 0,
});

/** Flux linkages (V s, main turns) and capacitor voltage of one motor. */
export interface Fluxes {
  main: number;
  auxiliary: number;
  rotorQ: number;
  rotorD: number;
  capacitor_V: number;
}

export interface Axes {
  /** Series capacitance of the auxiliary branch with the switch closed or open; Infinity for none. */
  capacitance_F(switchClosed: boolean): number;
  /** Resistance of the auxiliary branch. */
  auxiliaryResistance(switchClosed: boolean): number;
  /** Fills `into` from the fluxes; `carries` false: no auxiliary current can flow. */
  at(f: Fluxes, speed_radps: number, switchClosed: boolean, carries: boolean, into: AxesAt): void;
  /** Flux linkage of an auxiliary winding that carries no current. */
  idleAuxiliary(rotorD: number, speed_radps: number): number;
}

/**
 * A single-phase machine in stationary axes: main winding on q, auxiliary on d, referred to main turns
 * (i_A = a i_a, psi_A = psi_a/a), omega_e the electrical rotor speed:
 *
 *     d(psi_m)/dt = v - r1 i_m                     psi_m = (L1 + Lm) i_m + Lm i_q
 *     d(psi_A)/dt = (v - v_c)/a - r_A i_A          psi_A = (L_A + Lm) i_A + Lm i_d
 *     d(psi_q)/dt = omega_e psi_d - r2 i_q         psi_q = (L2 + Lm) i_q + Lm i_m
 *     d(psi_d)/dt = -omega_e psi_q - r2 i_d        psi_d = (L2 + Lm) i_d + Lm i_A
 *
 * with Lm = xm/omega and so on, the ohms of the envelope. From sum(i d(psi)) = stored energy the torque is
 * T = (P/2)(psi_q i_d - psi_d i_q). At rest and in the steady state these are exactly the revolving-field
 * circuit. With i = L^-1 psi axis by axis each winding obeys di/dt = alpha + beta v.
 *
 * A start and a run capacitor together are taken as the one series R-C they equal at supply frequency.
 * Rotor values that differ between standstill and running follow the slip, as in the envelope.
 *
 * Source: Krause, Wasynczuk, Sudhoff, Analysis of Electric Machinery, 2nd ed., ch. 10 (from memory).
 * Checked by packages/circuit/test/wave/motor.test.ts against `steadyState` and a published run-up.
 */
export function axesOf(m: Machine): Axes {
  const omega = 2 * Math.PI * m.frequency_Hz;
  const pairs = m.poles / 2;
  const a = m.auxiliary?.turnsRatio ?? 1;
  const lm = m.magnetising_ohm / omega;
  const l1 = m.main.x_ohm / omega + lm;
  const la = (m.auxiliary?.x_ohm ?? 0) / (omega * a * a) + lm;
  const branches = { closed: arm(m, true, omega), open: arm(m, false, omega) };
  const { rotor, rotorAtStandstill: still } = m;
  const share = (speed: number): number => Math.min(1, Math.abs(1 - (pairs * speed) / omega));
  const rotorL = (speed: number): number =>
    (rotor.x_ohm + (still.x_ohm - rotor.x_ohm) * share(speed)) / omega + lm;
  const rotorR = (speed: number): number => rotor.r_ohm + (still.r_ohm - rotor.r_ohm) * share(speed);
  return {
    capacitance_F: (switchClosed) => (switchClosed ? branches.closed : branches.open).capacitance_F,
    auxiliaryResistance: (switchClosed) => (switchClosed ? branches.closed : branches.open).r,
    idleAuxiliary: (rotorD, speed) => (lm * rotorD) / rotorL(speed),
    at(f, speed, switchClosed, carries, into) {
      const l2 = rotorL(speed);
      const r2 = rotorR(speed);
      const electrical = pairs * speed;
      const qDet = 1 / (l1 * l2 - lm * lm);
      const im = (l2 * f.main - lm * f.rotorQ) * qDet;
      const iq = (l1 * f.rotorQ - lm * f.main) * qDet;
      const dDet = 1 / (la * l2 - lm * lm);
      const iA = carries ? (l2 * f.auxiliary - lm * f.rotorD) * dDet : 0;
      const id = carries ? (la * f.rotorD - lm * f.auxiliary) * dDet : f.rotorD / l2;
      const rateQ = electrical * f.rotorD - r2 * iq;
      const rateD = -electrical * f.rotorQ - r2 * id;
      into.main = im;
      into.auxiliary = iA / a;
      into.rotorQ = iq;
      into.rotorD = id;
      into.rateQ = rateQ;
      into.rateD = rateD;
      into.betaMain = l2 * qDet;
      into.alphaMain = (-l2 * m.main.r_ohm * im - lm * rateQ) * qDet;
      if (carries) {
        const r = switchClosed ? branches.closed.r : branches.open.r;
        const k = l2 * dDet;
        into.betaAuxiliary = k / (a * a);
        into.alphaAuxiliary = (k * (-f.capacitor_V / a - (r * iA) / (a * a)) - lm * rateD * dDet) / a;
      } else {
        into.betaAuxiliary = 0;
        into.alphaAuxiliary = 0;
      }
      into.torque = pairs * (f.rotorQ * id - f.rotorD * iq);
      into.rotorLoss = r2 * (iq * iq + id * id);
    },
  };
}

/** Resistance and series capacitance of the auxiliary branch. */
function arm(m: Machine, switchClosed: boolean, omega: number): { r: number; capacitance_F: number } {
  const whole = auxiliaryBranch(m, switchClosed);
  if (whole === null || m.auxiliary === null) return { r: 0, capacitance_F: Number.POSITIVE_INFINITY };
  const reactance = m.auxiliary.x_ohm - whole.x_ohm;
  return {
    r: whole.r_ohm,
    capacitance_F: reactance > 0 ? 1 / (omega * reactance) : Number.POSITIVE_INFINITY,
  };
}
