import { describe, expect, it } from "vitest";
import { codeLetterOf, middleOf } from "../src/motor/codeLetter.ts";
import { POUND_FOOT2_KGM2, usualRotorInertia_kgm2 } from "../src/motor/rotorInertia.ts";
import { nearestStandardPower } from "../src/motor/standardPowers.ts";
import { usualEfficiency, usualSlip } from "../src/motor/usualValues.ts";

const HP_W = 745.7;

describe("rotor inertia", () => {
  it("follows 0.02 x 2^(P/2) x hp^(1.35 - 0.05 P/2) lb ft2: 0.07, 0.13 and 0.19 (handbook estimate, 5 %)", () => {
    const poundFoot2 = (hp: number, poles: number): number =>
      usualRotorInertia_kgm2(hp * HP_W, poles).value / POUND_FOOT2_KGM2;
    expect(Math.abs(poundFoot2(1.5, 2) / 0.07 - 1)).toBeLessThan(0.05);
    expect(Math.abs(poundFoot2(1.5, 4) / 0.133 - 1)).toBeLessThan(0.005);
    expect(Math.abs(poundFoot2(2, 4) / 0.19 - 1)).toBeLessThan(0.005);
  });

  it("counts a pound at a foot as 0.04214 kg m2 (published: NIST SP 811)", () => {
    expect(POUND_FOOT2_KGM2).toBeCloseTo(0.04214, 5);
  });

  it("grows with power and with poles (invariant)", () => {
    expect(usualRotorInertia_kgm2(1500, 4).value).toBeGreaterThan(usualRotorInertia_kgm2(750, 4).value);
    expect(usualRotorInertia_kgm2(750, 6).value).toBeGreaterThan(usualRotorInertia_kgm2(750, 4).value);
  });
});

describe("usual values", () => {
  it("take the nearest rating in ratio", () => {
    expect(nearestStandardPower(1.2)).toBe(1);
    expect(nearestStandardPower(1.3)).toBe(1.5);
    expect(nearestStandardPower(0.01)).toBe(1 / 6);
    expect(nearestStandardPower(99)).toBe(10);
  });

  it("take the middle of a code letter, and a step from the known edge of A and V", () => {
    expect(middleOf({ low: 8, high: 9 })).toBe(8.5);
    expect(codeLetterOf(middleOf({ low: 0, high: 3.15 }))).toBe("A");
    expect(codeLetterOf(middleOf({ low: 22.4, high: Infinity }))).toBe("V");
    expect(() => codeLetterOf(-1)).toThrow("invalid kvaPerHp: -1");
  });

  it("have efficiency grow with size between the worked textbook motors (Fitzgerald 9.2 and 9.5, range)", () => {
    const quarter = usualEfficiency(HP_W / 4);
    expect(quarter.low).toBeLessThan(0.599);
    expect(quarter.high).toBeGreaterThan(0.599);
    const five = usualEfficiency(4.7 * HP_W);
    expect(five.value).toBeGreaterThan(quarter.value);
    expect(five.high).toBeLessThan(0.9);
  });

  it("have 1725 rpm at 60 Hz and 1425 rpm at 50 Hz for four poles (closed form)", () => {
    expect(1800 * (1 - usualSlip(60))).toBeCloseTo(1725, 9);
    expect(1500 * (1 - usualSlip(50))).toBeCloseTo(1425, 9);
  });
});
