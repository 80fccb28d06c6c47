import { cableImpedance } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import data from "./data.json";

describe("BS 7671 appendix 4 (from memory)", () => {
  for (const { size, mVPerAm } of data.rows) {
    it(`${size} mm2 copper at 70 degC (published, 2 %)`, () => {
      const { temperature_C } = data;
      const conductor = `${size} mm2 Cu`;
      const found = cableImpedance({
        conductor,
        length_m: 1,
        temperature_C,
        run: "plastic conduit",
        frequency_Hz: 50,
      });
      if (Array.isArray(found)) throw new Error("refused");
      expect(Math.abs((1000 * found.value.r_ohm) / mVPerAm - 1)).toBeLessThan(0.02);
    });
  }
});
