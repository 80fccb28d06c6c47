import { stallTime_s } from "@startgap/study";
import { describe, expect, it } from "vitest";

const HEAT_JpKmm3 = 3.45e-3;
const RHO20_ohmmm = 17.241e-6;
const BETA_C = 234.5;
const AIR_C = 40;

/** Time from one temperature to another at a current density, by the trapezoid over temperature. */
function heatingTime_s(from_C: number, to_C: number, density_Apmm2: number): number {
  const steps = 20_000;
  const perDegree = (T: number): number =>
    HEAT_JpKmm3 / (((RHO20_ohmmm * (BETA_C + T)) / (BETA_C + 20)) * density_Apmm2 ** 2);
  let sum = 0;
  for (let k = 0; k < steps; k++) {
    const a = from_C + ((to_C - from_C) * k) / steps;
    const b = from_C + ((to_C - from_C) * (k + 1)) / steps;
    sum += ((perDegree(a) + perDegree(b)) / 2) * (b - a);
  }
  return sum;
}

describe("a winding held still, hot", () => {
  for (const [insulation, rise_K, limit_C] of [
    ["A", 60, 200],
    ["B", 80, 225],
    ["F", 105, 250],
  ] as const) {
    for (const density of [20, 36, 60]) {
      it(`class ${insulation} at ${density} A/mm2 (independent integration, 0.3 %)`, () => {
        const want = heatingTime_s(AIR_C + rise_K, limit_C, density);
        expect(Math.abs(stallTime_s(insulation, density) / want - 1)).toBeLessThan(0.003);
      });
    }
  }

  it("a start winding at 60 A/mm2 bears seconds, a main winding at 36 A/mm2 about ten (common practice, band)", () => {
    expect(stallTime_s("B", 60)).toBeGreaterThan(3);
    expect(stallTime_s("B", 60)).toBeLessThan(5);
    expect(stallTime_s("B", 36)).toBeGreaterThan(8);
    expect(stallTime_s("B", 36)).toBeLessThan(15);
  });

  it("refuses no current", () => {
    expect(() => stallTime_s("B", 0)).toThrow("invalid density_Apmm2: 0 (expected above 0)");
  });
});
