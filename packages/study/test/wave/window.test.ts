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

describe("a waveform in a worker", () => {
  const shed = exampleNamed("ice-shed");

  it("can be handed over as it is", () => {
    const study = wave(shed, { case: "one", from_s: 0.2, to_s: 0.3 });
    if (isFailure(study)) throw new Error(study.failed);
    expect(structuredClone(study)).toEqual(study);
  });

  it("tells how far it is, and the same in a window as in the whole story (2e-4 of the line's highest)", () => {
    const told: number[] = [];
    const part = wave(shed, { case: "one", from_s: 0.9, to_s: 1, onProgress: (share) => told.push(share) });
    const whole = wave(shed, { case: "one", from_s: 0, to_s: 1 });
    if (isFailure(part) || isFailure(whole)) throw new Error("no study");
    expect(told.every((share, k) => share <= 1 && (k === 0 || share >= told[k - 1]))).toBe(true);
    expect(told[told.length - 1]).toBe(1);
    const line = (study: typeof part): Float64Array =>
      study.traces.columns.find((c) => c.quantity === "current")?.values ?? new Float64Array(0);
    const highest = Math.max(...line(whole).map(Math.abs));
    const skipped = line(whole).length - line(part).length;
    expect(line(part).length).toBeGreaterThan(700);
    line(part).forEach((value, row) => {
      expect(Math.abs(value - line(whole)[row + skipped])).toBeLessThan(2e-4 * highest);
    });
  });

  it("ends soon after it is told to", () => {
    let told = 0;
    const signal = {
      get aborted() {
        return told > 0.1;
      },
    };
    const study = wave(shed, { from_s: 5, to_s: 6, signal, onProgress: (share) => (told = share) });
    expect(isFailure(study)).toBe(true);
    expect(told).toBeLessThan(0.11);
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
