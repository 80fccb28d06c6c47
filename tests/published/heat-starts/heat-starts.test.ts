import { HORSEPOWER_W } from "@startgap/cabinet";
import { capacitorStarts, startsAllowed } from "@startgap/study";
import { describe, expect, it } from "vitest";
import data from "./data.json";

const POUND_FOOT2_KGM2 = 0.45359237 * 0.3048 ** 2;

describe("NEMA MG 10, table 2-3 (published, exact)", () => {
  for (const { poles, power_hp, A, B, C } of data.rows) {
    it(`${power_hp} hp, ${poles} poles: starts bound by the table or by inertia, whichever is less, and the rest`, () => {
      const power_W = power_hp * HORSEPOWER_W;
      const light = startsAllowed(power_W, poles, 1e-6);
      expect(light?.perHour).toBeCloseTo(A, 6);
      expect(light?.rest_s).toBeCloseTo(C, 6);
      const WK2 = (2 * B) / A;
      expect(startsAllowed(power_W, poles, WK2 * POUND_FOOT2_KGM2)?.perHour).toBeCloseTo(A / 2, 6);
    });
  }

  it("says nothing beyond the table", () => {
    expect(startsAllowed(0.5 * HORSEPOWER_W, 4, 0.01)).toBeNull();
    expect(startsAllowed(5 * HORSEPOWER_W, 4, 0.01)).toBeNull();
    expect(startsAllowed(HORSEPOWER_W, 8, 0.01)).toBeNull();
  });

  for (const { start_s, starts } of data.capacitor) {
    it(`a start capacitor bears ${starts} starts of ${start_s} s (common practice, exact)`, () => {
      expect(capacitorStarts(start_s)).toBe(starts);
    });
  }
});
