import { describe, expect, it } from "vitest";
import { clampReading, firstCycles, firstPeakAsymmetry, i2t_A2s } from "../../src/wave/readings.ts";
import { constructed } from "./samples.ts";

const angle = (row: number): number => (2 * Math.PI * row) / 128;
const sine = (row: number): number => 100 * Math.sin(angle(row));

describe("a clamp meter", () => {
  it("reads the rms of six cycles of a sine from its trigger on (closed form, 1e-3)", () => {
    const reading = clampReading(
      constructed((row) => (row < 256 ? 0 : sine(row)), 2000),
      1,
      0.1,
    );
    // The sine passes 10 A two rows after row 256.
    expect(reading.from_s).toBeCloseTo(259 / 7680, 9);
    expect(Math.abs(reading.rms_A / (100 / Math.SQRT2) - 1)).toBeLessThan(1e-3);
    expect(reading.peak_A).toBeCloseTo(100, 9);
  });
  it("does not trigger on less than its level", () => {
    const reading = clampReading(
      constructed((row) => sine(row) / 20, 2000),
      1,
    );
    expect(reading).toMatchObject({ from_s: null, rms_A: 0, peak_A: 0 });
  });
  it("averages what there is of a window that ends early", () => {
    const reading = clampReading(
      constructed(() => 40, 100),
      1,
      0.1,
    );
    expect(reading.rms_A).toBeCloseTo(40, 12);
  });
});

describe("first-peak asymmetry", () => {
  it("of a sine is 1, of one with a whole offset that is gone by the third cycle 2 (closed form)", () => {
    expect(firstPeakAsymmetry(constructed(sine, 600), 1, 0, 128)).toBeCloseTo(1, 9);
    const shifted = (row: number): number => sine(row) + (row < 128 ? 100 : 0);
    expect(firstPeakAsymmetry(constructed(shifted, 600), 1, 0, 128)).toBeCloseTo(2, 9);
  });
  it("is not told without three cycles, or without a current", () => {
    expect(firstPeakAsymmetry(constructed(sine, 300), 1, 0, 128)).toBeNull();
    expect(
      firstPeakAsymmetry(
        constructed(() => 0, 600),
        1,
        0,
        128,
      ),
    ).toBeNull();
    expect(firstPeakAsymmetry(constructed(sine, 600), 1, -1, 128)).toBeNull();
  });
});

describe("the integral of i^2", () => {
  it("over a cycle of a sine is its mean square times the cycle (closed form)", () => {
    expect(i2t_A2s(constructed(sine, 600), 1, 0, 128)).toBeCloseTo(5000 / 60, 9);
  });
  it("stops at the last sample", () => {
    expect(
      i2t_A2s(
        constructed(() => 2, 11),
        1,
        0,
        500,
      ),
    ).toBeCloseTo((4 * 10) / 7680, 12);
  });
});

describe("the heaviest cycles of a window", () => {
  const melt = { minimumFusing_A: 10, share: [1], tau_s: [1] };
  const link = {
    is: "fuse",
    name: "link",
    fedBy: "supply",
    leg: "first",
    r_ohm: 0,
    x_ohm: 0,
    poles: 1,
    rating_A: 8,
    melt,
    clearing: null,
  } as const;
  /** The fuse stands where the load did. */
  const fused = (rows: number): ReturnType<typeof constructed> => {
    const plain = constructed((row) => (row >= 1000 && row <= 1768 ? 100 : 1), rows);
    const [supply] = plain.plant.layout.circuit.parts;
    const circuit = { title: "fused", parts: [supply, link] };
    const plant = { ...plain.plant, layout: { ...plain.plant.layout, circuit } };
    return { ...plain, plant };
  };
  it("are found wherever they are, with what would melt the fuse in that time (closed form)", () => {
    const [found] = firstCycles(fused(3000));
    expect(found.from_s).toBeCloseTo(1000 / 7680, 9);
    expect(found.time_s).toBeCloseTo(0.1, 12);
    expect(found.i2t_A2s).toBeCloseTo(1000, 6);
    // One term of 1 s: I^2 (1 - e^-0.1) = 100.
    expect(Math.abs(found.melting_A2s / ((100 * 0.1) / (1 - Math.exp(-0.1))) - 1)).toBeLessThan(1e-6);
  });
  it("are not told of a window without a length", () => {
    expect(firstCycles(fused(1))).toEqual([]);
  });
});
