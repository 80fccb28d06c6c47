import { expect } from "vitest";

/** Published, within the rounding of print: half a unit of the last digit printed. */
export function expectPrinted(got: number, printed: string) {
  expect(got).toBeCloseTo(Number(printed), printed.split(".")[1]?.length ?? 0);
}
