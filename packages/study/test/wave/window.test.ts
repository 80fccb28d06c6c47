import { describe, expect, it } from "vitest";
import { isFailure, longestWindow_s, wave } from "../../src/index.ts";
import { leftOut } from "../../src/wave/leftOut.ts";
import { exampleNamed } from "./example.ts";

const horse = exampleNamed("quarter-horse");

describe("the window of a waveform", () => {
  it("that is too long to keep is refused in a sentence, before any work", () => {
    const longest = longestWindow_s(horse.circuit);
    const refused = wave(horse, { from_s: 1, to_s: 1.5 + longest });
    expect(isFailure(refused) && refused.failed).toContain(`at most ${longest} s`);
  });
  it("that ends too late is refused in a sentence", () => {
    const refused = wave(horse, { from_s: 700, to_s: 701 });
    expect(isFailure(refused) && refused.failed).toContain("up to 600 s");
  });
  it.each([
    [1, 0.5],
    [-1, 2],
    [0, Number.NaN],
  ])("from %d s to %d s is a programmer's error", (from_s, to_s) => {
    expect(() => wave(horse, { from_s, to_s })).toThrow(RangeError);
  });
  it("keeps 128 samples a cycle of what was asked for, at k times the step", () => {
    const study = wave(horse, { from_s: 0.25, to_s: 0.35 });
    if (isFailure(study)) throw new Error(study.failed);
    const { time_s } = study.traces;
    expect(time_s[0]).toBe(0.25);
    expect(time_s.length).toBe(769);
    expect(time_s[768]).toBe((1920 + 768) * (1 / 7680));
  });
});

describe("the worst angle", () => {
  const study = wave(horse, { angle_deg: "worst", to_s: 0.2 });
  if (isFailure(study)) throw new Error(study.failed);
  it("is the one that was tried with the highest peak, and is what is told", () => {
    expect(study.angles).toHaveLength(18);
    const most = Math.max(...study.angles.map(({ peak_A }) => peak_A));
    expect(study.angles.find(({ angle_deg }) => angle_deg === study.angle_deg)?.peak_A).toBe(most);
    const current = study.traces.columns.find((c) => c.part === "bench" && c.quantity === "current");
    const told = Math.max(...(current?.values ?? []).map(Math.abs).slice(0, 257));
    expect(told).toBeCloseTo(most, 9);
  });
  it("gives the other half of the turn upside down (closed form, 1e-3)", () => {
    const turned = wave(horse, { angle_deg: study.angle_deg + 180, to_s: 0.2 });
    if (isFailure(turned)) throw new Error(turned.failed);
    study.traces.columns[0].values.forEach((value, row) => {
      expect(Math.abs(turned.traces.columns[0].values[row] + value)).toBeLessThan(1e-3 * 160);
    });
  });
});

describe("what a waveform leaves out", () => {
  it("is told in a sentence: a load whose current leads and holds its power; nothing of the published motor", () => {
    expect(leftOut(horse.circuit)).toEqual([]);
    const { circuit } = exampleNamed("two-legs");
    const parts = circuit.parts.map((p) =>
      p.is === "load" ? { ...p, reactive_var: -100, holds: "power" as const } : p,
    );
    expect(leftOut({ ...circuit, parts })).toEqual([
      "bench receptacles: taken as a resistance here, though its current leads.",
    ]);
  });
});
