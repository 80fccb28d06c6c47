import {
  codeLetterRange,
  lockedRotorLimit_A,
  tableFullLoadCurrent_A,
  tableLockedRotorCurrent_A,
  usualCodeLetter,
  usualFullLoadCurrent_A,
} from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import data from "./data.json" with { type: "json" };

const { powers_hp } = data;
const orUndefined = (value: number | null): number | undefined => value ?? undefined;

describe("NEC Table 430.248, single-phase full-load current", () => {
  for (const voltage of [115, 200, 208, 230] as const) {
    it(`${voltage} V row (published, exact)`, () => {
      expect(powers_hp.map((hp) => tableFullLoadCurrent_A(hp, voltage))).toEqual(data.fullLoad_A[voltage]);
    });
  }

  it("serves 110 to 120 V and 220 to 240 V as it stands, other voltages at the same volt-amperes (closed form)", () => {
    for (const volts of [110, 115, 120]) expect(usualFullLoadCurrent_A(1.5, volts)).toBe(20);
    for (const volts of [220, 230, 240]) expect(usualFullLoadCurrent_A(1.5, volts)).toBe(10);
    expect(usualFullLoadCurrent_A(1.5, 100)).toBeCloseTo(23, 9);
    expect(usualFullLoadCurrent_A(1.5, 460)).toBeCloseTo(5, 9);
  });

  it("is followed straight between ratings and by amperes a horsepower beyond them (closed form)", () => {
    expect(usualFullLoadCurrent_A(4, 230)).toBeCloseTo(22.5, 9);
    expect(usualFullLoadCurrent_A(1 / 12, 230)).toBeCloseTo(1.1, 9);
    expect(usualFullLoadCurrent_A(12, 230)).toBeCloseTo(60, 9);
  });

  it("has no column between ratings", () => expect(tableFullLoadCurrent_A(1.25, 115)).toBeUndefined());
});

describe("NEC Table 430.251(A), single-phase locked-rotor current", () => {
  for (const voltage of [115, 208, 230] as const) {
    it(`${voltage} V row (published, exact)`, () => {
      const want = data.lockedRotor_A[voltage].map(orUndefined);
      expect(powers_hp.map((hp) => tableLockedRotorCurrent_A(hp, voltage))).toEqual(want);
    });
  }

  it("is six times the full-load table at 115 and 230 V (published identity)", () => {
    for (const hp of powers_hp.slice(3)) {
      for (const volts of [115, 230] as const) {
        expect(tableLockedRotorCurrent_A(hp, volts)).toBeCloseTo(6 * tableFullLoadCurrent_A(hp, volts)!, 9);
      }
    }
  });

  it("lies above the usual code letters (worked out, 0.05 kVA/hp)", () => {
    for (const [k, hp] of powers_hp.slice(3).entries()) {
      const kva = (115 * tableLockedRotorCurrent_A(hp, 115)!) / 1000 / hp;
      expect(Math.abs(kva - data.kvaPerHpAt115V[k])).toBeLessThan(0.06);
      expect(kva).toBeGreaterThan(codeLetterRange(usualCodeLetter(hp))!.high);
    }
  });
});

describe("NEMA MG 1 12.33 and 12.34, greatest locked-rotor current at 60 Hz (from memory)", () => {
  for (const design of ["O", "N", "L"] as const) {
    for (const voltage of [115, 230] as const) {
      it(`design ${design}, ${voltage} V (from memory, exact)`, () => {
        const want = data.limits_A[design][voltage].map(orUndefined);
        expect(powers_hp.map((hp) => lockedRotorLimit_A(design, hp, voltage))).toEqual(want);
      });
    }
  }

  it("is at 115 V about twice that at 230 V (invariant, 30 %)", () => {
    for (const hp of powers_hp.slice(0, 6)) {
      const ratio = lockedRotorLimit_A("N", hp, 115)! / lockedRotorLimit_A("N", hp, 230)!;
      expect(Math.abs(ratio / 2 - 1)).toBeLessThan(0.3);
    }
  });
});
