import { examples, parseCabinet } from "@startgap/cabinet";
import { plantOf } from "@startgap/circuit";
import { describe, expect, it } from "vitest";
import { isFailure } from "../src/index.ts";
import { caseReport } from "../src/judge/case.ts";
import { tellShifted } from "../src/shifted.ts";
import { staggerOf } from "../src/stagger.ts";
import { tellBranch, tellTrunk } from "../src/telling.ts";

const pace = { tolerance: 1e-8 };
const moments = [0.3, 4, 4.0001, 5.5, 9];

function trunkOf(key: string) {
  const text = examples.find((example) => example.key === key)?.text ?? "";
  const read = parseCabinet(text);
  if ("issues" in read) throw new Error("bad example");
  const stagger = staggerOf(read.cabinet.circuit);
  const trunk = tellTrunk(plantOf(read.cabinet.circuit), stagger, 9, moments, pace);
  if (isFailure(trunk)) throw new Error(trunk.failed);
  const branch = (delay_s: number) => {
    const told = tellBranch(trunk, stagger, delay_s, 21, pace);
    if (isFailure(told)) throw new Error(told.failed);
    return told;
  };
  const from = (delay_s: number) => {
    const moment = trunk.moments.get(delay_s);
    if (moment === undefined) throw new Error("no moment");
    return moment;
  };
  return { stagger, trunk, branch, from };
}

describe("a story moved in time (independent: the same story run)", () => {
  const { stagger, trunk, branch, from } = trunkOf("ice-shed");
  const base = { told: branch(4), from: from(4) };

  it.each([4.0001, 5.5, 9])("second start at %d s: every figure of the report within 1e-6", (delay_s) => {
    const moved = tellShifted(trunk, stagger, base, delay_s, 1e-7);
    if (moved === null) throw new Error("not moved");
    const found = caseReport(moved, "staggered");
    const expected = caseReport(branch(delay_s), "staggered");
    const close = (a: number | null, b: number | null): void => {
      if (a === null || b === null) expect(a).toBe(b);
      else expect(Math.abs(a - b)).toBeLessThan(1e-6 * (1 + Math.abs(b)));
    };
    found.motors.forEach((motor, i) => {
      const other = expected.motors[i];
      expect(motor.outcome).toBe(other.outcome);
      for (const key of [
        "closed_s",
        "switchOpened_s",
        "lowestVoltage_V",
        "finalSpeed_rpm",
        "peakCurrent_A",
      ] as const) {
        close(motor[key], other[key]);
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
    expect(moved.recording.at(moved.recording.rows - 1, 0)).toBeCloseTo(21, 9);
  });

  it("is refused while the first motor still runs up", () => {
    expect(tellShifted(trunk, stagger, { told: branch(0.3), from: from(0.3) }, 4, 1e-7)).toBeNull();
  });
});

it("is refused where a third start would have to move too", () => {
  const { stagger, trunk, branch, from } = trunkOf("two-legs");
  expect(tellShifted(trunk, stagger, { told: branch(4), from: from(4) }, 5.5, 1e-7)).toBeNull();
});
