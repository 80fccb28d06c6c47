import { type Machine, steadyState } from "@startgap/circuit";
import { describe, expect, it } from "vitest";
import { breakdown } from "../src/motor/breakdown.ts";
import { fitMotor } from "../src/motor/fit.ts";
import type { FitTargets } from "../src/motor/fitTargets.ts";
import { machineAt, unknownsOf } from "../src/motor/fitUnknowns.ts";

/** 1/4 hp, 110 V, 60 Hz. Source: Krause, Wasynczuk, Sudhoff, 2nd ed., ch. 10 (auxiliary winding from memory). */
const quarterHorse: Machine = {
  poles: 4,
  frequency_Hz: 60,
  voltage_V: 110,
  main: { r_ohm: 2.02, x_ohm: 2.79 },
  rotor: { r_ohm: 4.12, x_ohm: 2.12 },
  rotorAtStandstill: { r_ohm: 4.12, x_ohm: 2.12 },
  magnetising_ohm: 66.8,
  core_ohm: 500,
  rotationalLoss_W: 13,
  auxiliary: { r_ohm: 7.14, x_ohm: 3.22, turnsRatio: 1.18 },
  startCapacitor: { r_ohm: 3, x_ohm: 14.5 },
  runCapacitor: null,
  startSwitch: { opens: 0.75, closes: 0.45 },
};

const amperes = ({ re, im }: { re: number; im: number }): number => Math.hypot(re, im);

/** The figures that a maker would print on this machine's plate, from the machine itself. */
function plateOf(machine: Machine, slip: number): FitTargets {
  const V = machine.voltage_V;
  const rated = steadyState(machine, V, slip, false);
  const locked = steadyState(machine, V, 1, true);
  return {
    type: "capacitor-start",
    voltage_V: V,
    frequency_Hz: machine.frequency_Hz,
    poles: machine.poles,
    slip,
    torque_Nm: rated.shaftTorque_Nm,
    fullLoadCurrent_A: amperes(rated.line_A),
    efficiency: rated.efficiency,
    efficiencySpread: 0.008,
    lockedRotorCurrent_A: amperes(locked.line_A),
    lockedRotorTorque_Nm: locked.torque_Nm,
    lockedRotorTorqueSpread: 0.015,
    lockedRotorPowerFactor: locked.powerFactor,
    breakdownTorque_Nm: breakdown(machine, V).torque_Nm,
    breakdownTorqueSpread: 0.015,
    startCapacitor_F: null,
    runCapacitor_F: null,
  };
}

describe("breakdown torque", () => {
  const dense = (machine: Machine): number =>
    Math.max(
      ...Array.from(
        { length: 4000 },
        (_, k) => steadyState(machine, 110, (k + 1) / 4000, false).shaftTorque_Nm,
      ),
    );

  it("is the crest of the running curve (independent search, 1e-5)", () => {
    const found = breakdown(quarterHorse, 110);
    expect(Math.abs(found.torque_Nm / dense(quarterHorse) - 1)).toBeLessThan(1e-5);
    expect(found.torque_Nm).toBe(steadyState(quarterHorse, 110, found.slip, false).shaftTorque_Nm);
  });

  it("is found at either end of the slips too (independent search, 1e-3)", () => {
    const stiff = {
      ...quarterHorse,
      rotor: { r_ohm: 0.3, x_ohm: 2 },
      rotorAtStandstill: { r_ohm: 0.3, x_ohm: 2 },
    };
    const permanent = {
      ...quarterHorse,
      rotor: { r_ohm: 30, x_ohm: 2 },
      rotorAtStandstill: { r_ohm: 30, x_ohm: 2 },
      runCapacitor: { r_ohm: 1, x_ohm: 40 },
    };
    for (const machine of [stiff, permanent]) {
      expect(Math.abs(breakdown(machine, 110).torque_Nm / dense(machine) - 1)).toBeLessThan(1e-3);
    }
  });
});

describe("the fit of a circuit to a plate", () => {
  const targets = plateOf(quarterHorse, 0.05);
  const fit = fitMotor(targets);

  it("meets the plate of a known machine: 0.5 % on currents and torques (independent: the machine itself)", () => {
    const V = 110;
    const rated = steadyState(fit.machine, V, 0.05, false);
    const locked = steadyState(fit.machine, V, 1, true);
    const off = (got: number, want: number): number => Math.abs(got / want - 1);
    expect(off(amperes(rated.line_A), targets.fullLoadCurrent_A)).toBeLessThan(0.005);
    expect(off(rated.shaftTorque_Nm, targets.torque_Nm)).toBeLessThan(0.005);
    expect(off(amperes(locked.line_A), targets.lockedRotorCurrent_A)).toBeLessThan(0.005);
    expect(off(locked.torque_Nm, targets.lockedRotorTorque_Nm)).toBeLessThan(0.03);
    expect(off(fit.breakdownTorque_Nm, targets.breakdownTorque_Nm)).toBeLessThan(0.03);
    expect(off(rated.efficiency, targets.efficiency)).toBeLessThan(0.02);
  });

  /** Time to 75 % speed unloaded, s per kg m2: the integral of 1/torque. */
  const runUp = (machine: Machine): number => {
    const steps = Array.from({ length: 75 }, (_, k) => 1 - (k + 0.5) / 100);
    return steps.reduce(
      (sum, slip) => sum + (0.01 * 60 * Math.PI) / steadyState(machine, 110, slip, true).torque_Nm,
      0,
    );
  };

  it("runs up as that machine does once the start capacitor is stated (independent: the machine itself, 5 %)", () => {
    const { machine } = fitMotor({ ...targets, startCapacitor_F: 1 / (2 * Math.PI * 60 * 14.5) });
    for (let slip = 0.3; slip <= 1; slip += 0.05) {
      const want = steadyState(quarterHorse, 110, slip, true).torque_Nm;
      expect(
        Math.abs(steadyState(machine, 110, slip, true).torque_Nm / want - 1),
        `slip ${slip}`,
      ).toBeLessThan(0.05);
    }
    expect(Math.abs(runUp(machine) / runUp(quarterHorse) - 1)).toBeLessThan(0.03);
  });

  it("runs up within 30 %, and not faster, where it is not (independent: the machine itself)", () => {
    const ratio = runUp(fit.machine) / runUp(quarterHorse);
    expect(ratio).toBeGreaterThan(0.97);
    expect(ratio).toBeLessThan(1.3);
  });

  it("gives the same circuit every time, after few steps (invariant)", () => {
    expect(fitMotor(targets)).toEqual(fit);
    expect(fit.iterations).toBeLessThan(60);
    expect(fit.strain).toBeLessThan(3);
  });

  it("takes a stated capacitor as it is (closed form)", () => {
    const stated = fitMotor({ ...targets, startCapacitor_F: 180e-6 });
    expect(stated.machine.startCapacitor!.x_ohm).toBeCloseTo(1 / (2 * Math.PI * 60 * 180e-6), 12);
  });

  it("scales: the same plate at twice the volts and half the amperes has four times the ohms (invariant, 1e-6)", () => {
    const half = {
      fullLoadCurrent_A: targets.fullLoadCurrent_A / 2,
      lockedRotorCurrent_A: targets.lockedRotorCurrent_A / 2,
    };
    const high = fitMotor({ ...targets, ...half, voltage_V: 220 });
    expect(high.machine.main.r_ohm / fit.machine.main.r_ohm).toBeCloseTo(4, 6);
    expect(high.machine.magnetising_ohm / fit.machine.magnetising_ohm).toBeCloseTo(4, 6);
    expect(high.machine.core_ohm / fit.machine.core_ohm).toBeCloseTo(4, 6);
  });
});

describe("the unknowns", () => {
  it("are those of the type, without the capacitors that are stated", () => {
    const names = (targets: Partial<FitTargets>): string[] =>
      unknownsOf({ ...plateOf(quarterHorse, 0.05), ...targets }).map(({ name }) => name);
    expect(names({ type: "split-phase" })).not.toContain("startX");
    expect(names({ type: "capacitor-start" })).toContain("startX");
    expect(names({ type: "capacitor-start", startCapacitor_F: 2e-4 })).not.toContain("startX");
    expect(names({ type: "permanent-split-capacitor" })).toContain("runX");
  });

  it("at zero are the usual machine, per unit of V/I (closed form)", () => {
    const targets = plateOf(quarterHorse, 0.05);
    const unknowns = unknownsOf(targets);
    const base = 110 / targets.fullLoadCurrent_A;
    const machine = machineAt(
      targets,
      unknowns,
      unknowns.map(() => 0),
    );
    expect(machine.main.r_ohm / base).toBeCloseTo(0.07, 12);
    expect(machine.auxiliary!.r_ohm / machine.main.r_ohm).toBeCloseTo(4, 12);
    expect(machine.rotorAtStandstill.r_ohm / machine.rotor.r_ohm).toBeCloseTo(1, 12);
  });
});
