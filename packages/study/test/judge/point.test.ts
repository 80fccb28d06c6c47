import { plantOf } from "@startgap/circuit";
import { describe, expect, it } from "vitest";
import { pointResult, timeBelow_s } from "../../src/judge/point.ts";
import { belowTimes } from "../../src/judge/times.ts";
import { circuit, load, relay, supply } from "../build.ts";
import { type Moment, oneQuantity, tellingOf } from "../invented.ts";

describe("time below a level", () => {
  it("is exact for straight lines (closed form)", () => {
    const down = oneQuantity([
      [0, 120],
      [1, 100],
      [3, 100],
      [3.5, 120],
    ]);
    // 108 V is passed at 0.6 s on the way down and at 3.2 s on the way up.
    expect(timeBelow_s(down, 1, 108)).toBeCloseTo(2.6, 14);
  });

  it("counts nothing for a touch, a level never reached, and both sides of a jump once", () => {
    expect(
      timeBelow_s(
        oneQuantity([
          [0, 110],
          [1, 100],
          [2, 110],
        ]),
        1,
        100,
      ),
    ).toBe(0);
    const jump = oneQuantity([
      [0, 120],
      [1, 120],
      [1, 90],
      [2, 90],
      [2, 120],
      [9, 120],
    ]);
    expect(timeBelow_s(jump, 1, 108)).toBe(1);
    expect(timeBelow_s(jump, 1, 80)).toBe(0);
  });

  it("adds up several sags", () => {
    const twice = oneQuantity([
      [0, 90],
      [1, 90],
      [1, 120],
      [5, 120],
      [5, 90],
      [5.25, 90],
    ]);
    expect(timeBelow_s(twice, 1, 108)).toBe(1.25);
  });
});

const shed = circuit(supply(), relay("relay", "panel", 3), load("lamp", "relay"));
const lamp = shed.parts[2];
if (lamp.is !== "load") throw new RangeError("the lamp is a load");
const result = (moments: readonly Moment[]) => pointResult(tellingOf(plantOf(shed), moments), 2, lamp);

describe("a receptacle", () => {
  it("tells the lowest and the last voltage of nominal", () => {
    const told = result([
      { t: 0, volts: { lamp: 119 } },
      { t: 1, volts: { lamp: 119 } },
      { t: 1, volts: { lamp: 96 } },
      { t: 1.5, volts: { lamp: 96 } },
      { t: 1.5, volts: { lamp: 117 } },
      { t: 9, volts: { lamp: 117 } },
    ]);
    expect(told).toEqual({
      part: "lamp",
      nominal_V: 120,
      lowestVoltage_V: 96,
      below90_s: 0.5,
      finalVoltage_V: 117,
    });
  });

  it("is not asked before it is first switched on", () => {
    const told = result([
      { t: 0, dead: ["lamp"] },
      { t: 3, dead: ["lamp"] },
      { t: 3, volts: { lamp: 115 } },
      { t: 9, volts: { lamp: 115 } },
    ]);
    expect(told).toMatchObject({ lowestVoltage_V: 115, below90_s: 0 });
  });

  it("counts as below once it has lost its supply", () => {
    const told = result([
      { t: 0, volts: { lamp: 115 } },
      { t: 2, volts: { lamp: 115 } },
      { t: 2, dead: ["lamp"] },
      { t: 9, dead: ["lamp"] },
    ]);
    expect(told).toMatchObject({ lowestVoltage_V: 0, below90_s: 7, finalVoltage_V: 0 });
  });

  it("that is never switched on has no voltage and no sag", () => {
    const told = result([
      { t: 0, dead: ["lamp"] },
      { t: 9, dead: ["lamp"] },
    ]);
    expect(told).toMatchObject({ lowestVoltage_V: 0, below90_s: 0 });
  });
});

describe("times below the steps of the limit curve", () => {
  it("are told for every load, in the order of the steps 90, 80 and 70 %", () => {
    const told = tellingOf(plantOf(shed), [
      { t: 0, volts: { lamp: 120 } },
      { t: 1, volts: { lamp: 100 } },
      { t: 1, volts: { lamp: 90 } },
      { t: 3, volts: { lamp: 90 } },
      { t: 3, volts: { lamp: 80 } },
      { t: 3.25, volts: { lamp: 80 } },
    ]);
    const times = belowTimes(told).get("lamp") ?? [];
    expect([...belowTimes(told).keys()]).toEqual(["lamp"]);
    expect(times[0]).toBeCloseTo(2.25 + 0.4, 12);
    expect(times[1]).toBeCloseTo(2.25, 12);
    expect(times[2]).toBeCloseTo(0.25, 12);
  });
});
