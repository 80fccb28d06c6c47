import {
  adiabaticArea_m2,
  adiabaticK,
  gaugeArea_m2,
  shortCircuitLimits,
  withstand_A2s,
} from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import { expectPrinted } from "../transformers-support/printed.ts";
import data from "./data.json";

describe("IEC 60364-5-54 and 60364-4-43", () => {
  for (const { insulation, k, tolerance } of data.rows) {
    it(`k of copper in ${insulation} (published, ${100 * tolerance} %)`, () => {
      const limit = shortCircuitLimits.find((known) => known.insulation === insulation)!;
      expect(Math.abs(adiabaticK("Cu", limit.initial_C, limit.final_C) / k - 1)).toBeLessThan(tolerance);
    });
  }

  it("k of copper above 300 mm2, and of aluminium (from memory) (published, print)", () => {
    for (const { initial_C, final_C, k } of data.thick)
      expectPrinted(adiabaticK("Cu", initial_C, final_C), k);
    for (const { initial_C, final_C, k } of data.aluminium)
      expectPrinted(adiabaticK("Al", initial_C, final_C), k);
  });

  it("smallest area for 1000 A during 0.1 s (closed form)", () => {
    const { k, letThrough_A2s, area_mm2 } = data.size;
    expectPrinted(1e6 * adiabaticArea_m2(k, letThrough_A2s), area_mm2);
  });

  it("let-through that small conductors survive, k 115 and 143 (independent code, 0.1 %)", () => {
    for (const { gauge, pvc_A2s, xlpe_A2s } of data.withstand) {
      expect(Math.abs(withstand_A2s(115, gaugeArea_m2(gauge)) / pvc_A2s - 1)).toBeLessThan(0.001);
      expect(Math.abs(withstand_A2s(143, gaugeArea_m2(gauge)) / xlpe_A2s - 1)).toBeLessThan(0.001);
    }
  });
});
