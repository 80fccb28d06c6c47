import type { Impedance } from "./conventions.ts";
import type { Machine } from "./machine.ts";

/** An rms phasor against the terminal voltage. */
export interface Phasor {
  readonly re: number;
  readonly im: number;
}

/** One steady operating point of a machine. Currents into the machine, torques forward. */
export interface MotorPoint {
  readonly slip: number;
  readonly speed_rpm: number;
  readonly main_A: Phasor;
  /** Zero when the auxiliary winding is out of circuit. */
  readonly auxiliary_A: Phasor;
  /** Main, auxiliary and core-loss current together. */
  readonly line_A: Phasor;
  /** Across the capacitors in series with the auxiliary winding. */
  readonly capacitor_V: Phasor;
  /** Mean torque in the air gap. */
  readonly torque_Nm: number;
  /** What is left of it at the shaft after windage and friction. */
  readonly shaftTorque_Nm: number;
  readonly inputPower_W: number;
  /** Input power over volt-amperes; 0 without current. */
  readonly powerFactor: number;
  readonly airGapPower_W: { readonly forward: number; readonly backward: number };
  readonly mainLoss_W: number;
  readonly auxiliaryLoss_W: number;
  readonly capacitorLoss_W: number;
  readonly rotorLoss_W: number;
  readonly coreLoss_W: number;
  readonly rotationalLoss_W: number;
  /** Torque in the air gap times speed. */
  readonly mechanicalPower_W: number;
  readonly shaftPower_W: number;
  /** Shaft over input power; 0 when either is not above 0. */
  readonly efficiency: number;
}

const ZERO: Phasor = { re: 0, im: 0 };
const add = (p: Phasor, q: Phasor): Phasor => ({ re: p.re + q.re, im: p.im + q.im });
const subtract = (p: Phasor, q: Phasor): Phasor => ({ re: p.re - q.re, im: p.im - q.im });
const scale = (k: number, p: Phasor): Phasor => ({ re: k * p.re, im: k * p.im });
const timesJ = (p: Phasor): Phasor => ({ re: -p.im, im: p.re });
const square = (p: Phasor): number => p.re * p.re + p.im * p.im;
const multiply = (p: Phasor, q: Phasor): Phasor => ({
  re: p.re * q.re - p.im * q.im,
  im: p.re * q.im + p.im * q.re,
});
const divide = (p: Phasor, q: Phasor): Phasor => scale(1 / square(q), multiply(p, { re: q.re, im: -q.im }));

/** Synchronous speed, rad/s mechanical. */
function synchronousSpeed_radps(machine: Machine): number {
  return (4 * Math.PI * machine.frequency_Hz) / machine.poles;
}

/**
 * Rotor resistance and leakage at one slip, the same for both fields.
 *
 * Saturated leakage paths (they follow the current, which stays high until the motor is up) and deep bars
 * change both between standstill and running; they are taken to go in a straight line with the slip and to
 * stay at the standstill values beyond it:
 *
 *     r2(s) = running + (standstill - running) min(1, |s|), and x2 likewise.
 *
 * Checked by packages/circuit/test/revolving.test.ts.
 */
export function rotorSeen(machine: Machine, slip: number): Impedance {
  const { rotor, rotorAtStandstill } = machine;
  const k = Math.min(1, Math.abs(slip));
  return {
    r_ohm: rotor.r_ohm + (rotorAtStandstill.r_ohm - rotor.r_ohm) * k,
    x_ohm: rotor.x_ohm + (rotorAtStandstill.x_ohm - rotor.x_ohm) * k,
  };
}

/**
 * Half of j xm in parallel with r2/sigma + j x2. Multiplied through by sigma it has no pole at 0:
 *
 *     Z = 1/2 j xm (r2 + j sigma x2)/(r2 + j sigma (x2 + xm)).
 */
function fieldImpedance(xm: number, { r_ohm: r2, x_ohm: x2 }: Impedance, sigma: number): Phasor {
  const ratio = divide({ re: r2, im: sigma * x2 }, { re: r2, im: sigma * (x2 + xm) });
  return scale(xm / 2, timesJ(ratio));
}

const capacitive = (c: Impedance): Phasor => ({ re: c.r_ohm, im: -c.x_ohm });

/**
 * What stands in series with the auxiliary winding, ohm (imaginary part negative for a capacitor), or
 * null when the winding is out of circuit: no auxiliary at all, or switch open and no run capacitor.
 */
export function startBranch(machine: Machine, startSwitchClosed: boolean): Phasor | null {
  const { auxiliary, startCapacitor, runCapacitor } = machine;
  if (auxiliary === null) return null;
  if (!startSwitchClosed) return runCapacitor === null ? null : capacitive(runCapacitor);
  if (startCapacitor === null) return runCapacitor === null ? ZERO : capacitive(runCapacitor);
  if (runCapacitor === null) return capacitive(startCapacitor);
  const start = capacitive(startCapacitor);
  const run = capacitive(runCapacitor);
  return divide(multiply(start, run), add(start, run));
}

interface Windings {
  readonly main: Phasor;
  readonly auxiliary: Phasor;
}

/** Cramer's rule on the two voltage equations of `steadyState`. */
function windingCurrents(
  machine: Machine,
  V: number,
  Zf: Phasor,
  Zb: Phasor,
  series: Phasor | null,
): Windings {
  const { auxiliary, main } = machine;
  const sum = add(Zf, Zb);
  const Zm = add({ re: main.r_ohm, im: main.x_ohm }, sum);
  if (auxiliary === null || series === null) {
    return { main: divide({ re: V, im: 0 }, Zm), auxiliary: ZERO };
  }
  const a = auxiliary.turnsRatio;
  const winding = add({ re: auxiliary.r_ohm, im: auxiliary.x_ohm }, series);
  const Za = add(winding, scale(a * a, sum));
  const mutual = scale(a, timesJ(subtract(Zf, Zb)));
  const D = add(multiply(Zm, Za), multiply(mutual, mutual));
  return {
    main: scale(V, divide(add(Za, mutual), D)),
    auxiliary: scale(V, divide(subtract(Zm, mutual), D)),
  };
}

function check(machine: Machine, voltage_V: number, slip: number): void {
  if (!(slip >= -1 && slip <= 2)) throw new RangeError(`invalid slip: ${slip} (expected -1 to 2)`);
  if (!(voltage_V >= 0 && voltage_V < Infinity)) {
    throw new RangeError(`invalid voltage: ${voltage_V} (expected 0 V or more)`);
  }
  const { rotor, rotorAtStandstill, magnetising_ohm, poles, frequency_Hz, core_ohm } = machine;
  const positive = { poles, frequency_Hz, magnetising_ohm, core_ohm, rotorResistance_ohm: rotor.r_ohm };
  const all = { ...positive, rotorResistanceAtStandstill_ohm: rotorAtStandstill.r_ohm };
  for (const [name, value] of Object.entries(all)) {
    if (!(value > 0)) throw new RangeError(`invalid ${name}: ${value} (expected above 0)`);
  }
}

/**
 * Steady state of a single-phase induction machine at one slip, by revolving fields.
 *
 * Each winding's pulsating field is two half-size fields turning either way. With Zf and Zb the rotor
 * seen by them (half of j xm in parallel with r2/s + j x2, and with r2/(2 - s) + j x2) and a the turns
 * ratio, a winding 90 degrees ahead meets the forward field a quarter period earlier, so that
 *
 *     V = (Zmain + Zf + Zb) Im - j a (Zf - Zb) Ia
 *     V = (Zaux + Zseries + a^2 (Zf + Zb)) Ia + j a (Zf - Zb) Im
 *
 * The forward field carries the current Im - j a Ia, the backward field Im + j a Ia; each gives its
 * rotor the power |I|^2 R. The rotor burns s of the forward and 2 - s of the backward power and the
 * difference of the two over synchronous speed is the mean torque:
 *
 *     Pf = |Im - j a Ia|^2 Rf,  Pb = |Im + j a Ia|^2 Rb,  T = (Pf - Pb)/omega_sync.
 *
 * Core loss is a resistance across the terminals. Windage and friction take the torque
 * rotationalLoss_W/omega_sync in proportion to speed. Quasi-static: winding transients have died away,
 * and the twice-frequency part of the torque is left out; the magnetising path does not saturate.
 *
 * @param machine  in ohms at its own frequency, see `Machine`; r2, xm, core above 0
 * @param voltage_V  rms across the terminals at the machine's frequency, 0 or more, phase reference
 * @param slip  per unit, -1 to 2: 0 synchronous, 1 standstill, 2 full reverse, below 0 driven over
 * @param startSwitchClosed  true: start capacitor (or none) in series with the auxiliary winding, in
 *   parallel with a run capacitor; false: the run capacitor alone, or the winding is out
 * @throws RangeError outside these ranges
 *
 * Source: Fitzgerald, Kingsley, Umans, Electric Machinery, 6th ed., ch. 9; McPherson & Laramore, An
 * Introduction to Electrical Machines and Transformers, ch. 6. Checked by tests/published/motors-* and,
 * for the power balance and the limits, by packages/circuit/test/revolving.test.ts.
 */
export function steadyState(
  machine: Machine,
  voltage_V: number,
  slip: number,
  startSwitchClosed: boolean,
): MotorPoint {
  check(machine, voltage_V, slip);
  const rotor = rotorSeen(machine, slip);
  const Zf = fieldImpedance(machine.magnetising_ohm, rotor, slip);
  const Zb = fieldImpedance(machine.magnetising_ohm, rotor, 2 - slip);
  const series = startBranch(machine, startSwitchClosed);
  const currents = windingCurrents(machine, voltage_V, Zf, Zb, series);
  const turned = scale(machine.auxiliary?.turnsRatio ?? 0, timesJ(currents.auxiliary));
  const forward = square(subtract(currents.main, turned)) * Zf.re;
  const backward = square(add(currents.main, turned)) * Zb.re;
  return balance(machine, voltage_V, slip, currents, series ?? ZERO, { forward, backward });
}

/** Powers, torques and losses that follow from the winding currents and the two air-gap powers. */
function balance(
  machine: Machine,
  V: number,
  slip: number,
  { main, auxiliary }: Windings,
  series: Phasor,
  gap: MotorPoint["airGapPower_W"],
): MotorPoint {
  const omegaSync = synchronousSpeed_radps(machine);
  const omega = (1 - slip) * omegaSync;
  const line = add(add(main, auxiliary), { re: V / machine.core_ohm, im: 0 });
  const torque = (gap.forward - gap.backward) / omegaSync;
  const shaftTorque = torque - (machine.rotationalLoss_W * (omega / omegaSync)) / omegaSync;
  const input = V * line.re;
  const shaft = shaftTorque * omega;
  const apparent = V * Math.sqrt(square(line));
  return {
    slip,
    speed_rpm: (1 - slip) * ((120 * machine.frequency_Hz) / machine.poles),
    main_A: main,
    auxiliary_A: auxiliary,
    line_A: line,
    capacitor_V: multiply(series, auxiliary),
    torque_Nm: torque,
    shaftTorque_Nm: shaftTorque,
    inputPower_W: input,
    powerFactor: apparent > 0 ? input / apparent : 0,
    airGapPower_W: gap,
    mainLoss_W: square(main) * machine.main.r_ohm,
    auxiliaryLoss_W: square(auxiliary) * (machine.auxiliary?.r_ohm ?? 0),
    capacitorLoss_W: square(auxiliary) * series.re,
    rotorLoss_W: slip * gap.forward + (2 - slip) * gap.backward,
    coreLoss_W: (V * V) / machine.core_ohm,
    rotationalLoss_W: machine.rotationalLoss_W * (1 - slip) ** 2,
    mechanicalPower_W: torque * omega,
    shaftPower_W: shaft,
    efficiency: shaft > 0 && input > 0 ? shaft / input : 0,
  };
}
