import type { Enclosure } from "@startgap/cabinet";
import { insideRise_K, riseShare, stallTime_s } from "@startgap/study";
import { describe, expect, it } from "vitest";
import { boxAfter, boxCapacity_JpK, settledInside_C } from "../../src/day/boxBody.ts";
import {
  adiabaticRise_K,
  coldMotor,
  heatCapacity_JpK,
  type MotorBody,
  type MotorState,
  motorAfter,
} from "../../src/day/motorBody.ts";
import { settling } from "../../src/day/settling.ts";
import { bodyCapacity_JpK, type WoundBody, woundAfter } from "../../src/day/woundBody.ts";

const motor: MotorBody = {
  part: "motor",
  rated_W: 300,
  ratedRise_K: 80,
  limit_C: 120,
  startWindingLimit_C: { lasting: 130, most: 225 },
  assumed: false,
};

const wound: WoundBody = {
  part: "transformer",
  insulation_C: 180,
  averageRise_K: 115,
  hottestRise_K: 145,
  rated_W: 200,
  ratedWinding_W: 150,
  core_S: 50 / 240 ** 2,
};

const box: Enclosure = {
  ...{ width_m: 0.4, height_m: 0.6, depth_m: 0.25, ventArea_m2: 0.004, ventRise_m: 0.45 },
  ...{ material: "painted steel", mounting: "on a wall", sun: "shade" },
  ...{ summer: { night_C: 20, day_C: 35 }, winter: { night_C: -10, day_C: 0 } },
};

/** The same balance in ten thousand plain steps. */
function stepped(net: (at: number) => number, capacity: number, from: number, time_s: number): number {
  const dt = time_s / 10_000;
  let at = from;
  for (let k = 0; k < 10_000; k++) {
    const middle = at + (net(at) * dt) / (2 * capacity);
    at += (net(middle) * dt) / capacity;
  }
  return at;
}

describe("a body that settles", () => {
  it("on a straight balance is the exponential (closed form, 1e-9)", () => {
    const at = settling((t) => 100 - 2 * t, 5000, 10, 1234);
    expect(at).toBeCloseTo(50 + (10 - 50) * Math.exp((-1234 * 2) / 5000), 6);
  });

  it("on a bent one is what small steps give (independent integration, 0.01 K)", () => {
    const net = (t: number): number => 100 - 0.3 * Math.max(0, t) ** 1.25;
    for (const time_s of [60, 300, 3600])
      expect(Math.abs(settling(net, 5000, 5, time_s) - stepped(net, 5000, 5, time_s))).toBeLessThan(0.01);
  });
});

describe("a motor", () => {
  const rise = (from: MotorState, s: number, W: number, turning = true): MotorState =>
    motorAfter(motor, from, 25, s, W, 0, turning);

  it("comes to its rated rise at its rated loss, by one exponential (closed form)", () => {
    expect(rise(coldMotor, 1800, 300).rise_K).toBeCloseTo(80 * (1 - Math.exp(-1)), 9);
    expect(rise(coldMotor, 1e6, 300).rise_K).toBeCloseTo(80, 9);
    expect(rise(coldMotor, 1e6, 150).rise_K).toBeCloseTo(40, 9);
  });

  it("is as warm after a stretch as after its two halves (invariant: exact, not a step)", () => {
    const whole = rise({ rise_K: 33, startWinding_K: 12 }, 700, 210);
    const halves = rise(rise({ rise_K: 33, startWinding_K: 12 }, 500, 210), 200, 210);
    expect(halves.rise_K).toBeCloseTo(whole.rise_K, 11);
    expect(halves.startWinding_K).toBeCloseTo(whole.startWinding_K, 11);
  });

  it("cools half as fast standing still, and to nothing", () => {
    const hot = { rise_K: 60, startWinding_K: 0 };
    expect(rise(hot, 3600, 0, false).rise_K).toBeCloseTo(60 / Math.E, 9);
    expect(rise(hot, 1800, 0, true).rise_K).toBeCloseTo(60 / Math.E, 9);
  });

  it("loses as much as it sheds and stores, its shed heat integrated by itself (closed form)", () => {
    const from = { rise_K: 20, startWinding_K: 0 };
    const time_s = 900;
    const to = rise(from, time_s, 240);
    const tau = 1800;
    const end = (80 * 240) / 300;
    const meanRise = end + ((20 - end) * tau * (1 - Math.exp(-time_s / tau))) / time_s;
    const shed = (300 / 80) * meanRise * time_s;
    expect(shed + heatCapacity_JpK(motor) * (to.rise_K - 20)).toBeCloseTo(240 * time_s, 5);
  });

  it("its start winding, held at its locked-rotor current from hot, is at its limit after the stall time (closed form)", () => {
    const t = stallTime_s("B", 60);
    expect(40 + 80 + adiabaticRise_K(120, t)).toBeCloseTo(225, 0);
  });

  it("its start winding is never hotter than where copper melts, however long it stays in", () => {
    const burnt = motorAfter(motor, coldMotor, 25, 1e-6, 0, 3600, false);
    expect(25 + burnt.startWinding_K).toBeCloseTo(1084.6, 3);
  });

  it("its start winding gains the same rise from one start as adiabatic copper, and loses it again", () => {
    const after = motorAfter(motor, coldMotor, 25, 1e-6, 0, 0.5, true);
    expect(after.startWinding_K).toBeCloseTo(adiabaticRise_K(25, 0.5), 5);
    expect(motorAfter(motor, after, 25, 1200, 0, 0, true).startWinding_K).toBeLessThan(0.01);
  });
});

describe("a transformer", () => {
  it("settles where its rated rise with load^1.6, and its core with all losses to 0.8, put it (closed form)", () => {
    for (const load of [0.3, 0.7, 1, 1.2]) {
      const winding_W = 150 * load ** 2;
      const { core_K, winding_K } = woundAfter(wound, { core_K: 0, winding_K: 0 }, 1e6, winding_W, 50);
      const core = 115 * ((winding_W + 50) / 200) ** 0.8;
      expect(core_K).toBeCloseTo(core, 3);
      expect(core_K + winding_K).toBeCloseTo(Math.max(core, 145 * riseShare(load)), 3);
    }
  });

  it("on the way there is where small steps put it (independent integration, 0.02 K)", () => {
    const net = (rise: number): number => 130 - 200 * (Math.max(0, rise) / 115) ** 1.25;
    for (const time_s of [300, 1800, 7200]) {
      const { core_K } = woundAfter(wound, { core_K: 10, winding_K: 0 }, time_s, 80, 50);
      expect(Math.abs(core_K - stepped(net, bodyCapacity_JpK(wound), 10, time_s))).toBeLessThan(0.02);
    }
  });

  it("sheds what it loses less what it stores (invariant)", () => {
    const { core_K, shed_J } = woundAfter(wound, { core_K: 30, winding_K: 4 }, 600, 80, 50);
    expect(shed_J + bodyCapacity_JpK(wound) * (core_K - 30)).toBeCloseTo(130 * 600, 6);
    expect(shed_J).toBeGreaterThan(0);
  });
});

describe("the box", () => {
  it("settles where its walls and vents shed what is lost in it (closed form)", () => {
    const { air_C } = boxAfter(box, 20, 20, 1e6, 120);
    expect(air_C).toBeCloseTo(settledInside_C(box, 120, 20), 4);
    expect(air_C - 20).toBeCloseTo(insideRise_K(box, 120, 20), 4);
  });

  it("cools to the air outside, never below it, and gives its heat off (invariant)", () => {
    const { air_C, shed_J } = boxAfter(box, 60, 20, 3600, 0);
    expect(air_C).toBeGreaterThan(20);
    expect(air_C).toBeLessThan(25);
    expect(shed_J).toBeCloseTo(boxCapacity_JpK(box) * (60 - air_C), 6);
  });
});
