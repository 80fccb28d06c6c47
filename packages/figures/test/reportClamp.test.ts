import type { Story } from "@startgap/study";
import { describe, expect, it } from "vitest";
import { clampReading_A } from "../src/report/clamp.ts";

const story = (time_s: readonly number[], current_A: readonly number[]): Story => ({
  case: "one",
  delay_s: 0,
  duration_s: time_s.at(-1) ?? 0,
  traces: {
    time_s: Float64Array.from(time_s),
    columns: [
      { quantity: "current", part: "pump", unit: "A", nominal: null, values: Float64Array.from(current_A) },
    ],
  },
  events: [],
});

describe("what a clamp meter shows", () => {
  it("is the current itself while it stays (closed form)", () => {
    expect(clampReading_A(story([0, 1], [7, 7]), "pump", 0.3)).toBeCloseTo(7, 12);
  });

  it("is sqrt((a^2 + ab + b^2)/3) on a straight line, however it is sampled (closed form)", () => {
    const exact = Math.sqrt((60 ** 2 + 60 * 20 + 20 ** 2) / 3);
    expect(clampReading_A(story([0, 0.1], [60, 20]), "pump", 0)).toBeCloseTo(exact, 12);
    const line = (t: number): number => 60 - 400 * t;
    const times = [0, 0.013, 0.05, 0.051, 0.1];
    expect(clampReading_A(story(times, times.map(line)), "pump", 0)).toBeCloseTo(exact, 12);
    expect(clampReading_A(story([0, 0.15], [60, 0]), "pump", 0)).toBeCloseTo(exact, 12);
  });

  it("takes both sides of a jump, each for its own time (closed form)", () => {
    const jumps = story([0, 0.2, 0.2, 1], [10, 10, 50, 50]);
    expect(clampReading_A(jumps, "pump", 0.15)).toBeCloseTo(Math.sqrt((100 + 2500) / 2), 12);
    expect(clampReading_A(jumps, "pump", 0.2)).toBeCloseTo(50, 12);
    expect(clampReading_A(jumps, "pump", 0.1, 0.4)).toBeCloseTo(Math.sqrt((100 + 3 * 2500) / 4), 12);
  });

  it("is not known past the end of a story, of another part, or of an empty story", () => {
    expect(clampReading_A(story([0, 1], [7, 7]), "pump", 0.95)).toBeNull();
    expect(clampReading_A(story([0, 1], [7, 7]), "fan", 0)).toBeNull();
    expect(clampReading_A(story([], []), "pump", 0)).toBeNull();
  });
});
