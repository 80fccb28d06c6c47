import { receiverStarts } from "@startgap/study";
import { describe, expect, it } from "vitest";
import data from "./data.json" with { type: "json" };

const CFM_m3ps = 0.3048 ** 3 / 60;
const PSI_Pa = 6894.757293168361;
const GALLON_m3 = 3.785411784e-3;

describe("starts an hour from the printed pump-up (published, 0.1 %)", () => {
  for (const { gallons, band_psi, comes_cfm, minutes } of data) {
    it(`${gallons} US gal, ${comes_cfm} cfm: at half of that drawn, one every four times ${minutes} minutes`, () => {
      const flow = comes_cfm * CFM_m3ps;
      const starts = receiverStarts(gallons * GALLON_m3, band_psi * PSI_Pa, flow, flow / 2);
      expect(Math.abs(starts / (60 / (4 * minutes)) - 1)).toBeLessThan(1e-3);
    });
  }

  it("none where nothing is drawn, or more than comes", () => {
    expect([0, 1e-3, 2e-3].map((drawn) => receiverStarts(0.2, 2e5, 1e-3, drawn))).toEqual([0, 0, 0]);
  });
});
