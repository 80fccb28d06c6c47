import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Machine } from "../src/machine.ts";
import type { MotorPoint, Phasor } from "../src/revolving.ts";
import { rotorSeen, startBranch, steadyState } from "../src/revolving.ts";

const quarterHorse: Machine = {
  poles: 4,
  frequency_Hz: 60,
  voltage_V: 110,
  main: { r_ohm: 2.02, x_ohm: 2.79 },
  rotor: { r_ohm: 4.12, x_ohm: 2.12 },
  rotorAtStandstill: { r_ohm: 4.12, x_ohm: 2.12 },
  magnetising_ohm: 66.8,
  core_ohm: Infinity,
  rotationalLoss_W: 0,
  auxiliary: { r_ohm: 7.14, x_ohm: 3.22, turnsRatio: 1.18 },
  startCapacitor: { r_ohm: 3, x_ohm: 14.5 },
  runCapacitor: null,
  startSwitch: { opens: 0.75, closes: 0.45 },
};

const amperes = (p: Phasor): number => Math.hypot(p.re, p.im);
const degrees = (p: Phasor): number => (Math.atan2(p.im, p.re) * 180) / Math.PI;
const error = (got: number, want: number, relative: number, absolute = 0): number =>
  Math.abs(got - want) / (absolute + relative * Math.abs(want));

/** Power in less every loss and the shaft, per unit of the volt-amperes: 0 for a true balance. */
const imbalance = (point: MotorPoint, voltage_V: number): number =>
  (point.inputPower_W -
    point.mainLoss_W -
    point.auxiliaryLoss_W -
    point.capacitorLoss_W -
    point.rotorLoss_W -
    point.coreLoss_W -
    point.rotationalLoss_W -
    point.shaftPower_W) /
  (voltage_V * amperes(point.line_A));

const ohms = fc.double({ min: 0.1, max: 60, noNaN: true });
const capacitor = fc.option(fc.record({ r_ohm: ohms, x_ohm: ohms }));
const impedance = fc.record({ r_ohm: ohms, x_ohm: ohms });
const anyMachine: fc.Arbitrary<Machine> = fc.record({
  poles: fc.constantFrom(2, 4, 6, 8),
  frequency_Hz: fc.constantFrom(50, 60),
  voltage_V: fc.constant(120),
  main: impedance,
  rotor: impedance,
  rotorAtStandstill: impedance,
  magnetising_ohm: fc.double({ min: 20, max: 400, noNaN: true }),
  core_ohm: fc.constantFrom(300, 2000, Infinity),
  rotationalLoss_W: fc.double({ min: 0, max: 80, noNaN: true }),
  auxiliary: fc.option(
    fc.record({ r_ohm: ohms, x_ohm: ohms, turnsRatio: fc.double({ min: 0.5, max: 2, noNaN: true }) }),
  ),
  startCapacitor: capacitor,
  runCapacitor: capacitor,
  startSwitch: fc.constant({ opens: 0.75, closes: 0.45 }),
});
const anySlip = fc.double({ min: 0, max: 2, noNaN: true });

describe("the steady state by revolving fields", () => {
  it("starts the 1/4 hp machine with 14.17, 6.287 and 17.49 A and 4.00 N m (independent code, 0.05 %)", () => {
    const point = steadyState(quarterHorse, 110, 1, true);
    expect(error(amperes(point.main_A), 14.166, 5e-4)).toBeLessThan(1);
    expect(error(amperes(point.auxiliary_A), 6.287, 5e-4)).toBeLessThan(1);
    expect(error(amperes(point.line_A), 17.488, 5e-4)).toBeLessThan(1);
    expect(error(point.torque_Nm, 3.998, 5e-4)).toBeLessThan(1);
    expect(degrees(point.auxiliary_A)).toBeCloseTo(27.57, 1);
    expect(degrees(point.line_A)).toBeCloseTo(-21.29, 1);
  });

  it("balances power in any machine at any slip (invariant, 1e-9)", () => {
    fc.assert(
      fc.property(anyMachine, anySlip, fc.boolean(), (machine, slip, closed) => {
        expect(Math.abs(imbalance(steadyState(machine, 120, slip, closed), 120))).toBeLessThan(1e-9);
      }),
      { numRuns: 300, seed: 1 },
    );
  });

  it("is the polyphase T circuit when two equal windings are fed in quadrature (closed form, 1e-12)", () => {
    // A capacitor whose drop turns the auxiliary current by 90 degrees against an equal main current
    // leaves no backward field; then each winding sees r1 + j x1 + 2 Zf.
    const slip = 0.3;
    const [r2, x2, xm] = [4.12, 2.12, 66.8];
    const yr = { re: r2 / slip / ((r2 / slip) ** 2 + x2 ** 2), im: -x2 / ((r2 / slip) ** 2 + x2 ** 2) };
    const y = { re: yr.re, im: yr.im - 1 / xm };
    const gap = { re: y.re / (y.re ** 2 + y.im ** 2), im: -y.im / (y.re ** 2 + y.im ** 2) };
    const R = 2.02 + gap.re;
    const X = 2.79 + gap.im;
    // Iaux = j Imain needs (R + rc) + j (X - xc) = (R + jX)/j = X - j R.
    const balanced: Machine = {
      ...quarterHorse,
      auxiliary: { r_ohm: 2.02, x_ohm: 2.79, turnsRatio: 1 },
      startCapacitor: { r_ohm: X - R, x_ohm: X + R },
    };
    const point = steadyState(balanced, 110, slip, true);
    const I2 = 110 ** 2 / (R * R + X * X);
    expect(error(amperes(point.main_A) ** 2, I2, 1e-12)).toBeLessThan(1);
    expect(point.airGapPower_W.backward).toBeCloseTo(0, 9);
    expect(error(point.torque_Nm, (2 * I2 * gap.re) / (60 * Math.PI), 1e-12)).toBeLessThan(1);
  });

  it("turns the other way with the auxiliary winding reversed: T(s) = -T(2 - s) (invariant, 1e-9)", () => {
    fc.assert(
      fc.property(anyMachine, anySlip, (any, slip) => {
        // Rotor values follow the slip, so only a rotor without such a change is symmetrical.
        const machine = { ...any, rotorAtStandstill: any.rotor };
        if (machine.auxiliary === null) return;
        const { turnsRatio } = machine.auxiliary;
        const reversed = { ...machine, auxiliary: { ...machine.auxiliary, turnsRatio: -turnsRatio } };
        const one = steadyState(machine, 120, slip, true);
        const other = steadyState(reversed, 120, 2 - slip, true);
        expect(error(other.torque_Nm, -one.torque_Nm, 1e-9, 1e-9)).toBeLessThan(1);
        expect(error(amperes(other.line_A), amperes(one.line_A), 1e-9)).toBeLessThan(1);
      }),
      { numRuns: 100, seed: 2 },
    );
  });

  it("goes with the square of the voltage in torque and with the voltage in current (invariant, 1e-12)", () => {
    const full = steadyState(quarterHorse, 110, 0.6, true);
    const low = steadyState(quarterHorse, 88, 0.6, true);
    expect(error(low.torque_Nm, 0.64 * full.torque_Nm, 1e-12)).toBeLessThan(1);
    expect(error(amperes(low.line_A), 0.8 * amperes(full.line_A), 1e-12)).toBeLessThan(1);
  });

  it("has no start torque on the main winding alone, and a braking one at synchronous speed (closed form)", () => {
    expect(steadyState(quarterHorse, 110, 1, false).torque_Nm).toBeCloseTo(0, 12);
    const synchronous = steadyState(quarterHorse, 110, 0, false);
    expect(synchronous.airGapPower_W.forward).toBeCloseTo(0, 12);
    expect(synchronous.torque_Nm).toBeLessThan(0);
  });

  it("joins the slips either side of 0 smoothly (invariant)", () => {
    const at = (slip: number): number => steadyState(quarterHorse, 110, slip, false).torque_Nm;
    expect(at(0)).toBeCloseTo((at(1e-6) + at(-1e-6)) / 2, 9);
  });

  it("approaches the main winding alone as the capacitor shrinks to nothing (closed form)", () => {
    const tiny = { ...quarterHorse, startCapacitor: { r_ohm: 0, x_ohm: 1e9 } };
    const alone = steadyState(quarterHorse, 110, 0.05, false);
    const point = steadyState(tiny, 110, 0.05, true);
    expect(error(point.torque_Nm, alone.torque_Nm, 1e-6)).toBeLessThan(1);
    expect(error(amperes(point.line_A), amperes(alone.line_A), 1e-6)).toBeLessThan(1);
  });
});

describe("the start branch", () => {
  const run = { r_ohm: 9, x_ohm: 172 };
  it("puts start and run capacitor in parallel while the switch is closed (closed form)", () => {
    const branch = startBranch({ ...quarterHorse, runCapacitor: run }, true);
    // (3 - j14.5)(9 - j172)/(12 - j186.5) = (-2467 - j646.5)(12 + j186.5)/34926.25
    expect(branch?.re).toBeCloseTo(90968.25 / 34926.25, 9);
    expect(branch?.im).toBeCloseTo(-467853.5 / 34926.25, 9);
  });
  it("keeps the run capacitor, or nothing, once the switch is open", () => {
    expect(startBranch({ ...quarterHorse, runCapacitor: run }, false)).toEqual({ re: 9, im: -172 });
    expect(startBranch(quarterHorse, false)).toBeNull();
    expect(startBranch({ ...quarterHorse, startCapacitor: null }, true)).toEqual({ re: 0, im: 0 });
    expect(startBranch({ ...quarterHorse, auxiliary: null }, true)).toBeNull();
  });
});

describe("rotor values that change with slip", () => {
  const deep = { ...quarterHorse, rotorAtStandstill: { r_ohm: 6, x_ohm: 1 } };
  it("go in a straight line from running to standstill and no further (closed form)", () => {
    expect(rotorSeen(deep, 0)).toEqual({ r_ohm: 4.12, x_ohm: 2.12 });
    expect(rotorSeen(deep, 0.5).r_ohm).toBeCloseTo(5.06, 12);
    expect(rotorSeen(deep, -0.5)).toEqual(rotorSeen(deep, 0.5));
    expect(rotorSeen(deep, 1.95)).toEqual({ r_ohm: 6, x_ohm: 1 });
  });
});

describe("what it refuses", () => {
  it("names the argument, what it was and what is taken", () => {
    expect(() => steadyState(quarterHorse, 110, 2.3, true)).toThrow("invalid slip: 2.3 (expected -1 to 2)");
    expect(() => steadyState(quarterHorse, 110, Number.NaN, true)).toThrow(RangeError);
    expect(() => steadyState(quarterHorse, -1, 1, true)).toThrow("invalid voltage: -1");
    const open = { ...quarterHorse, rotor: { r_ohm: 0, x_ohm: 1 } };
    expect(() => steadyState(open, 110, 0, true)).toThrow("invalid rotorResistance_ohm: 0");
  });
});
