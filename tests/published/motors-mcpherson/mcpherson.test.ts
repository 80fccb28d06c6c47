import { describe, expect, it } from "vitest";
import { checkBook } from "../motors-support/checkBook.ts";
import { machineOf, type PrintedMachine, pointOf } from "../motors-support/machines.ts";
import book from "./data.json" with { type: "json" };

checkBook(book);

describe("McPherson & Laramore, Example 6.2, p. 115: components of the main current", () => {
  const printed = book.machines["Example 6.2"] as unknown as PrintedMachine;
  const { main_A: m, auxiliary_A: x } = pointOf(machineOf(printed, 1), 115, 1, true);
  const a = printed.auxiliary![2];
  // (Im -+ j a Ia)/2
  const forward = { re: (m.re + a * x.im) / 2, im: (m.im - a * x.re) / 2 };
  const backward = { re: (m.re - a * x.im) / 2, im: (m.im + a * x.re) / 2 };
  const degrees = ({ re, im }: { re: number; im: number }): number => (Math.atan2(im, re) * 180) / Math.PI;

  it("are 11.77 A at -54.93 degrees and 4.37 A (published, 0.2 %, 0.1 deg)", () => {
    expect(Math.abs(Math.hypot(forward.re, forward.im) / 11.77 - 1)).toBeLessThan(0.002);
    expect(Math.abs(degrees(forward) + 54.93)).toBeLessThan(0.1);
    expect(Math.abs(Math.hypot(backward.re, backward.im) / 4.37 - 1)).toBeLessThan(0.002);
  });

  it("have the backward one at -19.70 degrees, printed -19.37 (independent code, 0.03 deg)", () => {
    expect(Math.abs(degrees(backward) + 19.7)).toBeLessThan(0.03);
    expect(Math.abs(degrees(backward) + 19.37)).toBeGreaterThan(0.2);
  });
});
