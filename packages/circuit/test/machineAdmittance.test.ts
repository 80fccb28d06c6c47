import { describe, expect, it } from "vitest";
import type { Machine } from "../src/machine.ts";
import {
  atFrequency,
  auxiliaryBranch,
  blankMachineAt,
  type MachineAt,
  machineAdmittance,
  synchronousSpeed_radps,
} from "../src/machineAdmittance.ts";
import { steadyState } from "../src/revolving.ts";
import { quarterHorse } from "./build.ts";

const run = { r_ohm: 9, x_ohm: 172 };
const types: Record<string, Machine> = {
  "split-phase": { ...quarterHorse, startCapacitor: null },
  "capacitor-start": quarterHorse,
  "capacitor-start-capacitor-run": { ...quarterHorse, runCapacitor: run },
  "permanent-split-capacitor": {
    ...quarterHorse,
    startCapacitor: null,
    runCapacitor: run,
    startSwitch: null,
  },
  "main winding alone": { ...quarterHorse, auxiliary: null, startCapacitor: null, startSwitch: null },
};
const deepBars: Partial<Machine> = {
  rotorAtStandstill: { r_ohm: 5.3, x_ohm: 1.7 },
  core_ohm: 480,
};
const slips = Array.from({ length: 45 }, (_, k) => -0.2 + k * 0.05);

const at = (m: Machine, slip: number, switchClosed: boolean): MachineAt => {
  const into = blankMachineAt();
  machineAdmittance(m)(slip, switchClosed, into);
  return into;
};

/** Largest difference of an operating point from `steadyState` at 1 V, relative to its line current. */
function difference(got: MachineAt, m: Machine, slip: number, switchClosed: boolean): number {
  const want = steadyState(m, 1, slip, switchClosed);
  const amperes = Math.hypot(want.main_A.re, want.main_A.im);
  const torque = (want.airGapPower_W.forward + want.airGapPower_W.backward) / synchronousSpeed_radps(m);
  return Math.max(
    Math.hypot(got.gr - want.line_A.re, got.gi - want.line_A.im) / amperes,
    Math.hypot(got.mainR - want.main_A.re, got.mainI - want.main_A.im) / amperes,
    Math.hypot(got.auxiliaryR - want.auxiliary_A.re, got.auxiliaryI - want.auxiliary_A.im) / amperes,
    Math.abs(got.torque - want.torque_Nm) / torque,
  );
}

describe.each(Object.keys(types))("%s (independent code: steadyState)", (type) => {
  it.each([
    ["plain rotor", {}],
    ["deep bars, core loss", deepBars],
    ["50 Hz, 6 poles", { frequency_Hz: 50, poles: 6 }],
  ])("%s: currents and torque within 1e-12 from slip -0.2 to 2", (_, more: Partial<Machine>) => {
    const m = { ...types[type], ...more };
    for (const slip of slips.filter((s) => s <= 2)) {
      for (const closed of [true, false])
        expect(difference(at(m, slip, closed), m, slip, closed)).toBeLessThan(1e-12);
    }
  });

  it("beyond slip 2 it is the mirror image of negative slip (invariant)", () => {
    // Rotor values follow the slip, so only a rotor without such a change is symmetrical.
    const m = { ...types[type] };
    const { auxiliary } = m;
    const mirrored: Machine = {
      ...m,
      auxiliary: auxiliary === null ? null : { ...auxiliary, turnsRatio: -auxiliary.turnsRatio },
    };
    for (const slip of [2.05, 2.1, 2.2]) {
      for (const closed of [true, false]) {
        const got = at(m, slip, closed);
        const image = { ...got, torque: -got.torque };
        expect(difference(image, mirrored, 2 - slip, closed)).toBeLessThan(1e-12);
      }
    }
  });

  it("is finite and smooth through synchronous speed", () => {
    for (const closed of [true, false]) {
      const here = at(types[type], 0, closed);
      for (const value of Object.values(here)) expect(Number.isFinite(value)).toBe(true);
      const [below, above] = [at(types[type], -1e-7, closed), at(types[type], 1e-7, closed)];
      expect((below.torque + above.torque) / 2).toBeCloseTo(here.torque, 12);
      expect((below.gr + above.gr) / 2).toBeCloseTo(here.gr, 12);
    }
  });
});

describe("standstill (closed form)", () => {
  const synchronous = 60 * Math.PI;
  /** j xm/2 beside (r2 + j x2)/2, by hand. */
  const field = (m: Machine): { re: number; im: number } => {
    const { r_ohm: r, x_ohm: x } = m.rotorAtStandstill;
    const xm = m.magnetising_ohm;
    const q = 0.5 / (r * r + (x + xm) ** 2);
    return { re: q * xm * xm * r, im: q * xm * (r * r + x * x + x * xm) };
  };

  it.each(Object.keys(types))("%s: two separate windings, torque 4 a Rf |Im||Ia| sin(angle)", (type) => {
    const m = { ...types[type], ...deepBars, core_ohm: Number.POSITIVE_INFINITY };
    const got = at(m, 1, true);
    const { re: R, im: X } = field(m);
    const main = { r: m.main.r_ohm + 2 * R, x: m.main.x_ohm + 2 * X };
    const branch = auxiliaryBranch(m, true);
    const a = m.auxiliary?.turnsRatio ?? 0;
    const aux = branch === null ? null : { r: branch.r_ohm + 2 * a * a * R, x: branch.x_ohm + 2 * a * a * X };
    const Im = 1 / Math.hypot(main.r, main.x);
    const Ia = aux === null ? 0 : 1 / Math.hypot(aux.r, aux.x);
    const lead = aux === null ? 0 : Math.atan2(main.x, main.r) - Math.atan2(aux.x, aux.r);
    expect(Math.hypot(got.mainR, got.mainI)).toBeCloseTo(Im, 13);
    expect(Math.hypot(got.auxiliaryR, got.auxiliaryI)).toBeCloseTo(Ia, 13);
    expect(got.torque).toBeCloseTo((4 * a * R * Im * Ia * Math.sin(lead)) / synchronous, 13);
  });

  it("the quarter-horsepower machine takes 17.49 A and gives 4.00 N m at 110 V (published data, 0.2 %)", () => {
    const { gr, gi, torque } = at(quarterHorse, 1, true);
    expect(Math.abs((110 * Math.hypot(gr, gi)) / 17.49 - 1)).toBeLessThan(2e-3);
    expect(Math.abs((110 ** 2 * torque) / 4.0 - 1)).toBeLessThan(2e-3);
  });
});

describe("limits of the capacitors", () => {
  it("an endlessly large start capacitor is none at all", () => {
    const large = { ...quarterHorse, startCapacitor: { r_ohm: 0, x_ohm: 1e-13 } };
    const split = types["split-phase"];
    for (const slip of slips)
      expect(at(large, slip, true).torque).toBeCloseTo(at(split, slip, true).torque, 14);
  });
  it("a vanishing run capacitor leaves the main winding alone", () => {
    const small = { ...types["permanent-split-capacitor"], runCapacitor: { r_ohm: 0, x_ohm: 1e12 } };
    for (const slip of slips) {
      expect(at(small, slip, true).gr).toBeCloseTo(at(types["main winding alone"], slip, true).gr, 10);
      expect(at(small, slip, true).torque).toBeCloseTo(at(small, slip, false).torque, 12);
    }
  });
  it("two equal capacitors side by side are one of half the impedance", () => {
    const half = { r_ohm: 4.5, x_ohm: 86 };
    const pair = { ...quarterHorse, startCapacitor: run, runCapacitor: run };
    const one = { ...quarterHorse, startCapacitor: half };
    for (const slip of slips) expect(at(pair, slip, true).gi).toBeCloseTo(at(one, slip, true).gi, 14);
  });
});

describe("another frequency", () => {
  it("scales every coil up, every capacitor down and leaves resistance", () => {
    const m = atFrequency({ ...quarterHorse, runCapacitor: run }, 50);
    expect(m.main).toEqual({ r_ohm: 2.02, x_ohm: expect.closeTo((2.79 * 5) / 6, 12) });
    expect(m.magnetising_ohm).toBeCloseTo((66.8 * 5) / 6, 12);
    expect(m.runCapacitor).toEqual({ r_ohm: 9, x_ohm: expect.closeTo((172 * 6) / 5, 10) });
    expect(synchronousSpeed_radps(m)).toBeCloseTo(50 * Math.PI, 12);
    const back = atFrequency(m, 60);
    expect(back.rotor.x_ohm).toBeCloseTo(2.12, 13);
    expect(back.startCapacitor?.x_ohm).toBeCloseTo(14.5, 13);
  });
});
