import { examples, parseCabinet } from "@startgap/cabinet";
import { type Circuit, plantOf } from "@startgap/circuit";
import { describe, expect, it } from "vitest";
import { isFailure } from "../src/index.ts";
import { caseReport } from "../src/judge/case.ts";
import { tellShifted } from "../src/shifted.ts";
import { staggerOf } from "../src/stagger.ts";
import { tellBranch, tellTrunk } from "../src/telling.ts";

const pace = { tolerance: 1e-8 };
const moments = [0.3, 4, 4.0001, 5.5, 9];

function circuitOf(key: string): Circuit {
  const read = parseCabinet(examples.find((example) => example.key === key)?.text ?? "");
  if ("issues" in read) throw new Error("bad example");
  return read.cabinet.circuit;
}

function trunkOf(circuit: Circuit, duration_s: number) {
  const stagger = staggerOf(circuit);
  const trunk = tellTrunk(plantOf(circuit), stagger, 9, moments, pace);
  if (isFailure(trunk)) throw new Error(trunk.failed);
  const branch = (delay_s: number) => {
    const told = tellBranch(trunk, stagger, delay_s, duration_s, pace);
    if (isFailure(told)) throw new Error(told.failed);
    return told;
  };
  const from = (delay_s: number) => {
    const moment = trunk.moments.get(delay_s);
    if (moment === undefined) throw new Error("no moment");
    return moment;
  };
  const moved = (base_s: number, delay_s: number) =>
    tellShifted(trunk, stagger, { told: branch(base_s), from: from(base_s) }, delay_s, 1e-7);
  return { branch, moved };
}

function close(a: number | null, b: number | null): void {
  if (a === null || b === null) expect(a).toBe(b);
  else expect(Math.abs(a - b)).toBeLessThan(1e-6 * (1 + Math.abs(b)));
}

/** Two motors; three, of which the third moves three times as far; a third that then starts too late; tanks. */
const stories: readonly [key: string, duration_s: number][] = [
  ["ice-shed", 21],
  ["two-legs", 36],
  ["two-legs", 21],
  ["shop-air", 21],
];

describe.each(stories)("%s, %d s, moved in time (independent: the same story run)", (key, duration_s) => {
  const { branch, moved } = trunkOf(circuitOf(key), duration_s);

  it.each([4.0001, 5.5, 9])("second start at %d s: every figure of the report within 1e-6", (delay_s) => {
    const told = moved(4, delay_s);
    if (told === null) throw new Error("not moved");
    const run = branch(delay_s);
    const found = caseReport(told, "staggered");
    const expected = caseReport(run, "staggered");
    found.motors.forEach((motor, i) => {
      const other = expected.motors[i];
      expect(motor.outcome).toBe(other.outcome);
      for (const figure of [
        "closed_s",
        "switchOpened_s",
        "lowestVoltage_V",
        "finalSpeed_rpm",
        "peakCurrent_A",
      ] as const) {
        close(motor[figure], other[figure]);
      }
      expect(Math.abs((motor.runUp_s ?? 0) - (other.runUp_s ?? 0))).toBeLessThan(1e-5);
    });
    found.points.forEach((point, i) => {
      close(point.lowestVoltage_V, expected.points[i].lowestVoltage_V);
      expect(Math.abs(point.below90_s - expected.points[i].below90_s)).toBeLessThan(1e-3);
    });
    found.fuses.forEach((fuse, i) => {
      expect(fuse.meltFraction / expected.fuses[i].meltFraction).toBeCloseTo(1, 5);
    });
    expect(told.events.map(({ name }) => name)).toEqual(run.events.map(({ name }) => name));
    told.events.forEach(({ t }, i) => {
      expect(Math.abs(t - run.events[i].t)).toBeLessThan(1e-5);
    });
    const last = told.recording.rows - 1;
    expect(told.recording.at(last, 0)).toBeCloseTo(duration_s, 9);
    for (let i = 0; i < told.plant.layout.states; i++) {
      const { state } = told.recording.channels;
      close(told.recording.at(last, state + i), run.recording.at(run.recording.rows - 1, state + i));
    }
  });

  it("is refused while the first motor still runs up", () => {
    expect(moved(0.3, 4)).toBeNull();
  });
});

it("is refused where a pressure switch would open that did not (constructed)", () => {
  const whole = circuitOf("shop-air");
  const controls = whole.controls?.map((p) =>
    p.is === "receiver" && p.name === "tank 1" ? { ...p, demand: [{ from_s: 0, flow_m3ps: 0 }] } : p,
  );
  const opensAt = (cutOut_Pa: number): Circuit => ({
    ...whole,
    controls: controls?.map((p) =>
      p.is === "pressure switch" && p.receiver === "tank 1" ? { ...p, cutOut_Pa } : p,
    ),
  });
  const { branch } = trunkOf(opensAt(1e7), 21);
  const pressures = [4, 9].map((delay_s) => {
    const { recording, plant } = branch(delay_s);
    const state = recording.channels.state + plant.stateNames.indexOf("pressure of tank 1");
    return recording.at(recording.rows - 1, state);
  });
  expect(pressures[1]).not.toBeCloseTo(pressures[0], 0);
  const between = trunkOf(opensAt((pressures[0] + pressures[1]) / 2), 21);
  expect(between.moved(4, 9)).toBeNull();
});
