import type { Machine } from "../machine.ts";
import { auxiliaryBranch } from "../machineAdmittance.ts";

/** Where the states of a motor stand from its first: flux linkages (V s, main turns), capacitor, speed. */
export const MAIN = 0;
export const AUXILIARY = 1;
export const ROTOR_Q = 2;
export const ROTOR_D = 3;
export const CAPACITOR = 4;
export const SPEED = 5;

/** What the states of a motor give at one moment. */
export interface AxesAt {
  /** Main and auxiliary winding current. */
  main: number;
  auxiliary: number;
  /** Rotor currents on the main (q) and auxiliary (d) axis, main turns. */
  rotorQ: number;
  rotorD: number;
  /** Line current, and di/dt = alpha + beta v of it. */
  line: number;
  alpha: number;
  beta: number;
  /** Rates of the rotor's flux linkages; they do not depend on the terminal voltage. */
  rateQ: number;
  rateD: number;
  torque: number;
  /** Rotor resistance, and 1 over the determinant of each axis. */
  r2: number;
  perQ: number;
  perD: number;
}

export const blankAxes = (): AxesAt => ({
  main: 0,
  auxiliary: 0,
  rotorQ: 0,
  rotorD: 0,
  line: 0,
  alpha: 0,
  beta: 0,
  rateQ: 0,
  rateD: 0,
  torque: 0,
  r2: 0,
  perQ: 0,
  perD: 0,
});

/** How the auxiliary branch stands. */
export interface Arm {
  /** False: no auxiliary current can flow. */
  readonly carries: boolean;
  /** Its resistance, and 1 over its series capacitance: 0 for none. */
  readonly r: number;
  readonly perC: number;
}

export interface Axes {
  /** The auxiliary branch with the start switch closed or open. */
  arm(switchClosed: boolean, carries: boolean): Arm;
  /** Fills everything from the states that begin at `first`, as if the rotor's inductance stood still. */
  solve(y: readonly number[], first: number, arm: Arm, into: AxesAt): void;
  /** True when the rotor's inductance changes with the speed: `accelerate` must follow. */
  readonly stiffens: boolean;
  /** With the shaft's acceleration known, adds to alpha what the rotor's changing inductance does. */
  accelerate(speed_radps: number, acceleration_radps2: number, arm: Arm, into: AxesAt): void;
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
  const running = { q: 1 / (l1 * rotor.l - lm * lm), d: 1 / (la * rotor.l - lm * lm) };
  const stiffens = rotor.dl !== 0;
  return {
    stiffens,
    arm: (switchClosed, carries) => ({ carries, ...(switchClosed ? closed : open) }),
    idleAuxiliary: (rotorD, speed) => (lm * rotorD) / (rotor.l + rotor.dl * rotor.share(speed)),
    solve(y, first, { carries, r }, into) {
      const main = y[first + MAIN];
      const psiQ = y[first + ROTOR_Q];
      const psiD = y[first + ROTOR_D];
      const speed = y[first + SPEED];
      const share = rotor.changes ? rotor.share(speed) : 0;
      const l2 = rotor.l + rotor.dl * share;
      const r2 = rotor.r + rotor.dr * share;
      const q = stiffens ? 1 / (l1 * l2 - lm * lm) : running.q;
      const iq = (l1 * psiQ - lm * main) * q;
      const im = (l2 * main - lm * psiQ) * q;
      const rateQ = pairs * speed * psiD - r2 * iq;
      const d = stiffens ? 1 / (la * l2 - lm * lm) : running.d;
      const auxiliary = y[first + AUXILIARY];
      const id = carries ? (la * psiD - lm * auxiliary) * d : psiD / l2;
      const rateD = -pairs * speed * psiQ - r2 * id;
      let alpha = (-l2 * r1 * im - lm * rateQ) * q;
      let beta = l2 * q;
      let ia = 0;
      if (carries) {
        ia = (l2 * auxiliary - lm * psiD) * d * perA;
        alpha += (-l2 * perA * (y[first + CAPACITOR] + r * ia) - lm * rateD) * d * perA;
        beta += l2 * d * perA * perA;
      }
      into.main = im;
      into.auxiliary = ia;
      into.rotorQ = iq;
      into.rotorD = id;
      into.line = im + ia;
      into.alpha = alpha;
      into.beta = beta;
      into.rateQ = rateQ;
      into.rateD = rateD;
      into.torque = pairs * (psiQ * id - psiD * iq);
      into.r2 = r2;
      into.perQ = q;
      into.perD = d;
    },
    accelerate(speed, acceleration, { carries }, into) {
      const dl2 = rotor.inductanceRate(speed, acceleration);
      into.alpha += lm * dl2 * into.rotorQ * into.perQ;
      if (carries) into.alpha += lm * dl2 * into.rotorD * into.perD * perA;
    },
  };
}

interface Rotor {
  /** L2 + Lm and r2 running, and what they gain at standstill. */
  readonly l: number;
  readonly r: number;
  readonly dl: number;
  readonly dr: number;
  readonly changes: boolean;
  /** How much of that at a speed. */
  share(speed_radps: number): number;
  inductanceRate(speed_radps: number, acceleration_radps2: number): number;
}

/** Between its running and standstill values the rotor follows |slip|, no further than 1. */
function rotorOf(
  { rotor, rotorAtStandstill: still }: Machine,
  omega: number,
  pairs: number,
  lm: number,
): Rotor {
  const dl = (still.x_ohm - rotor.x_ohm) / omega;
  const dr = still.r_ohm - rotor.r_ohm;
  return {
    l: rotor.x_ohm / omega + lm,
    r: rotor.r_ohm,
    dl,
    dr,
    changes: dl !== 0 || dr !== 0,
    share: (speed) => Math.min(1, Math.abs(1 - (pairs * speed) / omega)),
    inductanceRate(speed, acceleration) {
      const slip = 1 - (pairs * speed) / omega;
      return Math.abs(slip) >= 1 ? 0 : (-Math.sign(slip) * dl * pairs * acceleration) / omega;
    },
  };
}

/** Resistance and elastance of the auxiliary branch. */
function armOf(m: Machine, switchClosed: boolean, omega: number): { r: number; perC: number } {
  const whole = auxiliaryBranch(m, switchClosed);
  if (whole === null || m.auxiliary === null) return { r: 0, perC: 0 };
  const reactance = m.auxiliary.x_ohm - whole.x_ohm;
  return {
    r: whole.r_ohm,
    perC: reactance > 0 ? omega * reactance : 0,
  };
}
