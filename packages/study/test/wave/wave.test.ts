import { describe, expect, it } from "vitest";
import { inrush, isFailure, wave } from "../../src/index.ts";
import { harmonics, rollingRms } from "../../src/wave/rolling.ts";
import { exampleNamed } from "./example.ts";

describe("samples of a sine", () => {
  const sine = (row: number): number =>
    3 + 10 * Math.sin((2 * Math.PI * row) / 128) + 2 * Math.cos((6 * Math.PI * row) / 128);
  it("have the rms of their parts over every whole cycle (closed form)", () => {
    const rms = rollingRms(sine, 600);
    const expected = Math.sqrt(9 + 50 + 2);
    for (let row = 127; row < 600; row++) expect(rms[row]).toBeCloseTo(expected, 9);
  });
  it("give their mean and their harmonics back (closed form)", () => {
    const found = harmonics(sine, 17, 5);
    [3, 10, 0, 2, 0, 0].forEach((magnitude, order) => {
      expect(found[order]).toBeCloseTo(magnitude, 9);
    });
  });
});

describe("the two resolutions (invariant)", () => {
  it("agree on the published motor: rms 0.5 %, run-up 1 %", () => {
    const study = wave(exampleNamed("quarter-horse"), { to_s: 1.5 });
    if (isFailure(study)) throw new Error(study.failed);
    expect(study.agreement.rms).toBeLessThan(5e-3);
    expect(study.agreement.runUp).toBeLessThan(1e-2);
  });
  it("agree on the ice shed's first start: rms 2 %, run-up 1 %, melt fraction 1 %", () => {
    const study = wave(exampleNamed("ice-shed"), { case: "one", to_s: 3 });
    if (isFailure(study)) throw new Error(study.failed);
    expect(study.agreement.rms).toBeLessThan(0.02);
    expect(study.agreement.runUp).toBeLessThan(0.01);
    expect(study.agreement.melt).toBeLessThan(0.01);
  });
});

describe("switch-on of a transformer", () => {
  const study = inrush(exampleNamed("ice-shed").circuit);
  if (study === null || isFailure(study)) throw new Error("no study");
  it("is worst near a zero of the voltage with residual flux, several times rated current", () => {
    expect(Math.abs(study.worst.angle_deg - 90)).toBeLessThanOrEqual(15);
    expect(Math.abs(study.worst.residual)).toBe(0.7);
    expect(study.worst.peak_A).toBeGreaterThan(4 * 12.5);
    expect(study.worst.peak_A).toBeLessThan(15 * 12.5);
  });
  it("carries a direct and a second-harmonic part, which a steady core does not", () => {
    const [mean, first, second] = study.harmonics_A;
    expect(mean / first).toBeGreaterThan(0.3);
    expect(second / first).toBeGreaterThan(0.15);
  });
  it("is tried with the loads on and alone, at every angle and residual flux", () => {
    expect(study.tried).toHaveLength(48);
    for (const loads of [true, false]) {
      const peaks = study.tried.filter((one) => one.loads === loads).map((one) => one.peak_A);
      expect(study.worst.peak_A).toBeGreaterThanOrEqual(Math.max(...peaks));
    }
  });
  it("melts no more on repeats than as often as much, and says so in a finding", () => {
    const most = Math.max(...study.worst.melt.map(({ fraction }) => fraction));
    expect(study.afterRepeats).toEqual([most, 2 * most, 3 * most]);
    expect(study.finding).toMatchObject({ part: "line fuses", outcome: "pass", value: most });
    expect(study.finding?.says).toContain(`${Math.round(study.worst.peak_A)} A`);
  });
  it("is nothing to study where there is no transformer", () => {
    expect(inrush(exampleNamed("quarter-horse").circuit)).toBeNull();
  });
});
