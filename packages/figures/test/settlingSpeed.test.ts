import { describe, expect, it } from "vitest";
import { settlingSpeed_rpm } from "../src/settlingSpeed.ts";

const curve = (torque_Nm: number[]) => ({
  says: "",
  speed_rpm: [0, 600, 1200, 1800],
  torque_Nm,
  current_A: [0, 0, 0, 0],
});
const load = { speed_rpm: [0, 1800], torque_Nm: [2, 8] };

describe("where a motor comes to stay", () => {
  it("is where two straight lines cross (closed form)", () => {
    // between 1200 and 1800 rpm the motor falls from 12 to 0 N m, the load rises from 6 to 8 N m
    expect(settlingSpeed_rpm(curve([12, 12, 12, 0]), load)).toBeCloseTo(1200 + (600 * 6) / 14, 9);
  });

  it("is rest when the load asks more there", () => {
    expect(settlingSpeed_rpm(curve([1.9, 12, 12, 0]), load)).toBe(0);
  });

  it("is the first crossing, though torque exceeds the load again further up", () => {
    expect(settlingSpeed_rpm(curve([6, 2, 12, 0]), load)).toBeCloseTo((600 * 4) / 6, 9);
  });

  it("is nowhere when torque exceeds the load all along", () => {
    expect(settlingSpeed_rpm(curve([12, 12, 12, 12]), load)).toBeNull();
    expect(settlingSpeed_rpm(curve([12, 12, 12, 0]), { speed_rpm: [], torque_Nm: [] })).toBe(1800);
  });
});
