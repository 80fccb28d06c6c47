import { type MotorMode, plantOf } from "@startgap/circuit";
import type { Event } from "@startgap/ode";
import { describe, expect, it } from "vitest";
import { motorResult } from "../../src/judge/motor.ts";
import { circuit, fuse, motor, slowMelt, supply } from "../build.ts";
import { type Moment, tellingOf } from "../invented.ts";

const shop = circuit(supply(120, 0.01, 0), fuse("fuse", "panel", slowMelt(10)), motor("pump", "fuse"));
const plant = plantOf(shop);
const PUMP = 2;
const pump = shop.parts[PUMP];
if (pump.is !== "motor") throw new RangeError("the pump is a motor");
const SYNCHRONOUS = 60 * Math.PI;
const speedState = plant.layout.places[PUMP].state;

const at = (t: number, speed: number, more: Partial<Moment> = {}): Moment => ({
  t,
  states: Array.from({ length: plant.layout.states }, (_, i) => (i === speedState ? speed : 0)),
  volts: { pump: 110 },
  amps: { pump: 5 },
  ...more,
});

/** The last mode of the story, with the pump's and the fuse's own entries. */
function modeWith(own: Partial<MotorMode>, melted = false): readonly unknown[] {
  return plant.start().mode.map((mode, i) => {
    if (i === PUMP)
      return { ...(mode as MotorMode), connected: true, turning: true, startSwitch: false, ...own };
    return shop.parts[i].is === "fuse" ? { melted } : mode;
  });
}

/** Steady speed of the real motor, so that an invented story may end settled. */
const STEADY = 0.985;
const judge = (
  moments: readonly Moment[],
  mode: readonly unknown[] = modeWith({}),
  events: readonly Event[] = [],
) => motorResult(tellingOf(plant, moments, { modes: [[0, mode]], events }), PUMP, pump);

/** The speed, as a share of synchronous, at which the motor's torque meets its load: rate of change nil. */
function settled(): number {
  let [low, high] = [0.9, 0.999];
  for (let k = 0; k < 60; k++) {
    const middle = (low + high) / 2;
    const rate = new Array<number>(plant.layout.states).fill(0);
    const y = at(0, middle * SYNCHRONOUS).states ?? [];
    plant.derivative(0, y, modeWith({}), rate);
    if (rate[speedState] > 0) low = middle;
    else high = middle;
  }
  return low * SYNCHRONOUS;
}

describe("a motor", () => {
  it("that settles above its switch speed runs, and its figures are those of its connected time", () => {
    const told = judge(
      [
        at(0, 0, { dead: ["pump"], volts: {}, amps: {} }),
        at(2, 0, { dead: ["pump"], volts: {}, amps: {} }),
        at(2, 0, { volts: { pump: 96 }, amps: { pump: 30 } }),
        at(2.5, 0.5 * settled(), { volts: { pump: 98 }, amps: { pump: 25 } }),
        at(3, settled()),
        at(15, settled()),
      ],
      modeWith({}),
      [{ name: "pump: start switch opens", t: 2.9 }],
    );
    expect(told).toMatchObject({
      part: "pump",
      outcome: "running",
      closed_s: 2,
      lowestVoltage_V: 96,
      peakCurrent_A: 30,
    });
    expect(told.switchOpened_s).toBeCloseTo(0.9, 12);
    expect(told.runUp_s).toBeGreaterThan(0.5);
    expect(told.runUp_s).toBeLessThan(1);
    expect(told.finalSpeed_rpm).toBeCloseTo((settled() * 30) / Math.PI, 9);
    expect(told.finalCurrent_A).toBe(5);
  });

  it("runs but has no run-up time while its speed still changes", () => {
    const told = judge([at(0, 0), at(15, 0.8 * SYNCHRONOUS)]);
    expect(told).toMatchObject({ outcome: "running", runUp_s: null });
  });

  it("stalls below 75 % of synchronous speed, or with its start switch still closed", () => {
    expect(judge([at(0, 0), at(15, 0.74 * SYNCHRONOUS)]).outcome).toBe("stalled");
    expect(judge([at(0, 0), at(15, 0.76 * SYNCHRONOUS)]).outcome).toBe("running");
    expect(judge([at(0, 0), at(15, STEADY * SYNCHRONOUS)], modeWith({ startSwitch: true })).outcome).toBe(
      "stalled",
    );
  });

  it("is off when it ends without its supply, and tripped when that is a melted fuse's doing", () => {
    const ends = [at(0, 0), at(1, 50), at(1, 50, { dead: ["pump"] }), at(9, 0, { dead: ["pump"] })];
    expect(judge(ends, modeWith({ connected: false })).outcome).toBe("off");
    expect(judge(ends, modeWith({}, true)).outcome).toBe("tripped");
    expect(judge(ends).lowestVoltage_V).toBe(110);
  });

  it("that is never switched on has neither voltage nor times", () => {
    const told = judge(
      [at(0, 0, { dead: ["pump"] }), at(9, 0, { dead: ["pump"] })],
      modeWith({ connected: false }),
    );
    expect(told).toMatchObject({
      outcome: "off",
      closed_s: null,
      switchOpened_s: null,
      runUp_s: null,
      peakCurrent_A: 0,
      lowestVoltage_V: null,
    });
  });

  it("takes no switch for its own that opened before it was connected", () => {
    const events = [{ name: "pump: start switch opens", t: 1 }];
    const story = [at(0, 0, { dead: ["pump"] }), at(2, 0, { dead: ["pump"] }), at(2, 0), at(9, settled())];
    expect(judge(story, modeWith({}), events).switchOpened_s).toBeNull();
  });
});
