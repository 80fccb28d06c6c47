import { ambientCorrection, copperAmpacity_A, smallConductorLimit_A } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import { expectPrinted } from "../transformers-support/printed.ts";
import data from "./data.json";

describe("NEC Table 310.16 and 240.4(D)", () => {
  it("ampacity of 14 to 2 AWG copper; 60 degC of 14 to 10 AWG and 90 degC of 3 AWG (from memory) (published, exact)", () => {
    for (const { size, at60C_A, at75C_A, at90C_A } of data.rows) {
      expect([60, 75, 90].map((rated) => copperAmpacity_A(size, rated as 60 | 75 | 90))).toEqual([
        at60C_A,
        at75C_A,
        at90C_A,
      ]);
    }
  });

  it("largest device of small conductors; 18 and 16 AWG (from memory) (published, exact)", () => {
    for (const { size, limit_A } of data.small) expect(smallConductorLimit_A[size]).toBe(limit_A);
  });

  it("ambient correction at 40 degC (from memory) (published, print)", () => {
    for (const { rated_C, factor } of data.ambient) {
      expectPrinted(ambientCorrection(rated_C, 40), factor);
      expectPrinted(
        copperAmpacity_A("12", rated_C as 60 | 75 | 90, 40)! / copperAmpacity_A("12", rated_C as 60)!,
        factor,
      );
    }
  });
});
