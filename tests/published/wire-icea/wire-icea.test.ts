import { adiabaticK, gaugeArea_m2, iceaWithstand_A, withstand_A2s } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import { expectPrinted } from "../transformers-support/printed.ts";
import data from "./data.json";

const CIRCULAR_MIL_M2 = (Math.PI / 4) * 0.0000254 ** 2;

describe("ICEA P-32-382", () => {
  const { initial_C, final_C, gauge, circularMils } = data;

  it("amperes for each circular mil, and of 6530 of them (independent code, last digit)", () => {
    expectPrinted(iceaWithstand_A(CIRCULAR_MIL_M2, 1, initial_C, final_C), data.perCircularMil_A);
    expectPrinted(iceaWithstand_A(circularMils * CIRCULAR_MIL_M2, 1, initial_C, final_C), data.current_A);
  });

  it("agrees with the k of IEC 60364-5-54 (independent formula, 1 %)", () => {
    const area_m2 = gaugeArea_m2(gauge);
    const other_A = Math.sqrt(withstand_A2s(adiabaticK("Cu", initial_C, final_C), area_m2));
    expect(Math.abs(iceaWithstand_A(area_m2, 1, initial_C, final_C) / other_A - 1)).toBeLessThan(0.01);
  });
});
