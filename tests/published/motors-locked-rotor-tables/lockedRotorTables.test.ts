import { CODE_LETTERS, codeLetterOf, codeLetterRange, usualCodeLetter } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import data from "./data.json" with { type: "json" };

const amperes = (kvaPerHp: number, power_hp: number, lineVolts: number): number =>
  (1000 * kvaPerHp * power_hp) / lineVolts;

describe("code letters, NEMA MG 1 10.37.2", () => {
  const edges = Object.entries(data.lowerEdges_kvaPerHp);

  it("are A to V without I, O and Q, each from its edge to the next (published, exact)", () => {
    expect(CODE_LETTERS).toEqual(edges.map(([letter]) => letter));
    for (const [k, [letter, low]] of edges.entries()) {
      expect(codeLetterRange(letter)).toEqual({ low, high: edges[k + 1]?.[1] ?? Infinity });
    }
  });

  it("leave no gap: a letter holds its lower edge and not its upper one (published, exact)", () => {
    for (const [k, [letter, low]] of edges.entries()) {
      expect(codeLetterOf(low)).toBe(letter);
      if (k > 0) expect(codeLetterOf(low - 1e-9)).toBe(edges[k - 1][0]);
    }
    for (const none of ["I", "O", "Q", "W", "", "AB"]) expect(codeLetterRange(none)).toBeUndefined();
  });

  it("are usually L at 1/2 hp down to G at 5 hp (handbook table beside MG 1 10.37.2, exact)", () => {
    for (const [power_hp, letter] of data.usualLetters)
      expect(usualCodeLetter(power_hp as number)).toBe(letter);
  });

  it("give the usual locked-rotor amperes at 115 and 230 V (worked out, 0.1 A)", () => {
    for (const { power_hp, voltage_V, low_A, high_A } of data.amperesOfUsualLetters) {
      const { low, high } = codeLetterRange(usualCodeLetter(power_hp))!;
      expect(Math.abs(amperes(low, power_hp, voltage_V) - low_A)).toBeLessThan(0.1);
      expect(Math.abs(amperes(high, power_hp, voltage_V) - high_A)).toBeLessThan(0.1);
    }
  });

  for (const { example, letter, power_hp, lineVolts, low_A, high_A } of data.worked) {
    it(`${example}: ${low_A} to ${high_A} A (published, 0.2 %)`, () => {
      const { low, high } = codeLetterRange(letter)!;
      expect(Math.abs(amperes(low, power_hp, lineVolts) / low_A - 1)).toBeLessThan(0.002);
      expect(Math.abs(amperes(high, power_hp, lineVolts) / high_A - 1)).toBeLessThan(0.002);
    });
  }

  for (const { example, kvaPerHp, letter, below, current_A, power_hp, lineVolts } of data.edges) {
    it(`${example}: ${current_A} A; the edge itself belongs to ${letter}, not ${below} (published, 0.2 %)`, () => {
      expect(Math.abs(amperes(kvaPerHp, power_hp, lineVolts) / current_A - 1)).toBeLessThan(0.002);
      expect(codeLetterOf(kvaPerHp)).toBe(letter);
      expect(codeLetterRange(below)!.high).toBe(kvaPerHp);
    });
  }
});
