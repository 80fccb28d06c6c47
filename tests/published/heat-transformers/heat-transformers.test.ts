import { readCabinet } from "@startgap/cabinet";
import { type HeatReport, heat, riseShare, windingTemperature_C } from "@startgap/study";
import { describe, expect, it } from "vitest";
import { expectPrinted } from "../transformers-support/printed.ts";
import data from "./data.json";

/** A 1:1 transformer of 1.2 kVA and 120 V with nothing idle, on a stiff supply, loaded so that 10 A flow. */
function loaded(system_C: number): HeatReport {
  const read = readCabinet({
    startgap: 1,
    title: "one transformer",
    parts: [
      {
        name: "panel",
        is: "supply",
        voltage: "120 V",
        frequency: "60 Hz",
        impedance: { r: "0 ohm", x: "0 ohm" },
      },
      {
        name: "unit",
        is: "transformer",
        fedBy: "panel",
        rating: "1.2 kVA",
        windings: ["120 V", "120 V"],
        impedance: { r: "0.5 ohm", x: "0 ohm" },
        idleLoss: "0.001 W",
        insulation: `${system_C} degC`,
      },
      { name: "heater", is: "load", fedBy: "unit", impedance: { r: "11.5 ohm", x: "0 ohm" } },
    ],
  });
  if ("issues" in read) throw new Error(JSON.stringify(read.issues));
  const report = heat(read.cabinet);
  if ("failed" in report) throw new Error(report.failed);
  return report;
}

describe("dry-type transformers", () => {
  for (const { load, share } of data.shares) {
    it(`rise at ${load} of rated load (closed form of IEEE C57.96, print)`, () => {
      expectPrinted(riseShare(load), share);
    });
  }

  it("winding temperature from its resistance (closed form of IEC 60076-2, print)", () => {
    const { cold_ohm, cold_C, hot_ohm, hot_C } = data.resistance;
    expectPrinted(windingTemperature_C(cold_ohm, cold_C, hot_ohm), hot_C);
  });

  it("the hottest spot in air of 40 degC makes the name of the system; that of 180 is printed 185 (published)", () => {
    expect(data.systems.map(({ hottest_K }) => 40 + hottest_K)).toEqual([105, 150, 185, 200, 220]);
  });

  for (const { system_C, hottest_K } of data.systems) {
    it(`a ${system_C} degC system at rated load in air of 40 degC comes to its printed hottest spot (published)`, () => {
      const [unit] = loaded(system_C).transformers;
      expect(unit.load).toBeCloseTo(1, 6);
      expect(unit.winding_W).toBeCloseTo(50, 6);
      const summer = unit.seasons.find(({ season }) => season === "summer");
      // Air between 25 and 40 degC over the day; the body's hour takes 3 % off the swing of 7.5 K.
      const swing = 7.5 / Math.hypot(1, (2 * Math.PI) / 24);
      expect(summer?.hottest_C).toBeCloseTo(32.5 + hottest_K + swing, 0);
    });
  }
});
