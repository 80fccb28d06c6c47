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
  /** Rotor inductance, and 1 over the determinant of each axis: kept from the currents for the rates. */
  l2: number;
  perQ: number;
  perD: number;
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
  l2: 0,
  perQ: 0,
  perD: 0,
});

/** Flux linkages (V s, main turns) and capacitor voltage of one motor. */
export interface Fluxes {
  main: number;
  auxiliary: number;
  rotorQ: number;
  rotorD: number;
  capacitor_V: number;
}

/** How the auxiliary branch stands. */
export interface Arm {
  /** With or without the start capacitor. */
  readonly switchClosed: boolean;
  /** False: no auxiliary current can flow. */
  readonly carries: boolean;
}

export interface Axes {
  /** Series capacitance of the auxiliary branch; Infinity for none. */
  capacitance_F(switchClosed: boolean): number;
  auxiliaryResistance(switchClosed: boolean): number;
  /** Fills currents and torque from the fluxes. */
  currents(f: Fluxes, speed_radps: number, arm: Arm, into: AxesAt): void;
  /** Then, with the shaft's acceleration known, fills what the fluxes and the winding currents do next. */
  rates(f: Fluxes, speed_radps: number, acceleration_radps2: number, arm: Arm, into: AxesAt): void;
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
 * A start and a run capacitor together are taken as the one series R-C they equal at supply frequency; its
 * voltage goes on when the switch changes the branch at a current zero, where the run capacitor carries the
 * whole of it but for the drop of a current that circulates between the two through their own resistances.
 *
 * Rotor values that differ between standstill and running follow the slip, as in the envelope. L2 then changes
 * with the speed: d(L2)/dt i_q stands beside the voltages in di/dt, and the power i_q^2 d(L2)/dt/2 that no
 * coil takes up is counted as stored. Left out: that a saturated path follows the instantaneous current.
 *
 * Source: Krause, Wasynczuk, Sudhoff, Analysis of Electric Machinery, 2nd ed., ch. 10 (from memory).
 * Checked by packages/circuit/test/wave/motor.test.ts against `steadyState` and a published run-up.
 */
export function axesOf(m: Machine): Axes {
  const omega = 2 * Math.PI * m.frequency_Hz;
  const pairs = m.poles / 2;
  const a = m.auxiliary?.turnsRatio ?? 1;
  const perA = 1 / a;
  const lm = m.magnetising_ohm / omega;
  const l1 = m.main.x_ohm / omega + lm;
  const la = (m.auxiliary?.x_ohm ?? 0) / (omega * a * a) + lm;
  const r1 = m.main.r_ohm;
  const closed = armOf(m, true, omega);
  const open = armOf(m, false, omega);
  const rotor = rotorOf(m, omega, pairs, lm);
  return {
    capacitance_F: (switchClosed) => (switchClosed ? closed : open).capacitance_F,
    auxiliaryResistance: (switchClosed) => (switchClosed ? closed : open).r,
    idleAuxiliary: (rotorD, speed) => (lm * rotorD) / rotor.inductance(speed),
    currents(f, speed, { carries }, into) {
      const l2 = rotor.inductance(speed);
      const r2 = rotor.resistance(speed);
      const q = 1 / (l1 * l2 - lm * lm);
      const d = 1 / (la * l2 - lm * lm);
      const iq = (l1 * f.rotorQ - lm * f.main) * q;
      const id = carries ? (la * f.rotorD - lm * f.auxiliary) * d : f.rotorD / l2;
      into.main = (l2 * f.main - lm * f.rotorQ) * q;
      into.auxiliary = carries ? (l2 * f.auxiliary - lm * f.rotorD) * d * perA : 0;
      into.rotorQ = iq;
      into.rotorD = id;
      into.rateQ = pairs * speed * f.rotorD - r2 * iq;
      into.rateD = -pairs * speed * f.rotorQ - r2 * id;
      into.torque = pairs * (f.rotorQ * id - f.rotorD * iq);
      into.rotorLoss = r2 * (iq * iq + id * id);
      into.l2 = l2;
      into.perQ = q;
      into.perD = d;
    },
    rates(f, speed, acceleration, { switchClosed, carries }, into) {
      const { l2, perQ: q, perD: d } = into;
      const dl2 = rotor.inductanceRate(speed, acceleration);
      into.betaMain = l2 * q;
      into.alphaMain = (-l2 * r1 * into.main - lm * (into.rateQ - dl2 * into.rotorQ)) * q;
      if (!carries) {
        into.betaAuxiliary = 0;
        into.alphaAuxiliary = 0;
        return;
      }
      const r = switchClosed ? closed.r : open.r;
      const driven = -l2 * perA * (f.capacitor_V + r * into.auxiliary);
      into.betaAuxiliary = l2 * d * perA * perA;
      into.alphaAuxiliary = (driven - lm * (into.rateD - dl2 * into.rotorD)) * d * perA;
    },
  };
}

interface Rotor {
  /** L2 + Lm. */
  inductance(speed_radps: number): number;
  inductanceRate(speed_radps: number, acceleration_radps2: number): number;
  resistance(speed_radps: number): number;
}

/** Between its running and standstill values the rotor follows |slip|, no further than 1. */
function rotorOf(
  { rotor, rotorAtStandstill: still }: Machine,
  omega: number,
  pairs: number,
  lm: number,
): Rotor {
  const share = (speed: number): number => Math.min(1, Math.abs(1 - (pairs * speed) / omega));
  const [l, r] = [rotor.x_ohm / omega + lm, rotor.r_ohm];
  const dl = (still.x_ohm - rotor.x_ohm) / omega;
  const dr = still.r_ohm - rotor.r_ohm;
  return {
    inductance: (speed) => (dl === 0 ? l : l + dl * share(speed)),
    resistance: (speed) => (dr === 0 ? r : r + dr * share(speed)),
    inductanceRate(speed, acceleration) {
      if (dl === 0) return 0;
      const slip = 1 - (pairs * speed) / omega;
      return Math.abs(slip) >= 1 ? 0 : (-Math.sign(slip) * dl * pairs * acceleration) / omega;
    },
  };
}

/** Resistance and series capacitance of the auxiliary branch. */
function armOf(m: Machine, switchClosed: boolean, omega: number): { r: number; capacitance_F: number } {
  const whole = auxiliaryBranch(m, switchClosed);
  if (whole === null || m.auxiliary === null) return { r: 0, capacitance_F: Number.POSITIVE_INFINITY };
  const reactance = m.auxiliary.x_ohm - whole.x_ohm;
  return {
    r: whole.r_ohm,
    capacitance_F: reactance > 0 ? 1 / (omega * reactance) : Number.POSITIVE_INFINITY,
  };
}
