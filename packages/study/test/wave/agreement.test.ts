import { asStated, plantOf } from "@startgap/circuit";
import { describe, expect, it } from "vitest";
import { isFailure } from "../../src/failure.ts";
import { tellWhole } from "../../src/telling.ts";
import { agreement } from "../../src/wave/agreement.ts";
import type { WaveSamples } from "../../src/wave/samples.ts";
import { tellWave, type WaveTelling } from "../../src/wave/waveStory.ts";
import { exampleNamed } from "./example.ts";

/** The published motor agrees within 0.3 %: whatever is put on top of it must come out. */
const { circuit } = exampleNamed("quarter-horse");
const end_s = 1.5;
const told = tellWave(circuit, {}, { from_s: 0, to_s: end_s });
const envelope = tellWhole(plantOf(circuit), asStated, Number.POSITIVE_INFINITY, end_s, { tolerance: 1e-6 });
if (isFailure(told) || isFailure(envelope)) throw new Error("not told");
const wave: WaveTelling = told;
const with_ = (changed: Partial<WaveSamples>): WaveTelling => ({
  ...wave,
  samples: { ...wave.samples, rows: wave.samples.rows, ...changed },
});
const { samples } = wave;

describe("the agreement of two resolutions (constructed cases)", () => {
  const plain = agreement(wave, envelope);
  it("is within 0.3 % as they are", () => {
    expect(plain.rms).toBeLessThan(3e-3);
  });

  it("tells a current 5 % too high, and which", () => {
    const high = agreement(with_({ current: (part, row) => 1.05 * samples.current(part, row) }), envelope);
    expect(high.rms).toBeGreaterThan(0.045);
    expect(high.rms).toBeLessThan(0.055);
    expect(high.worst?.quantity).toBe("current");
  });

  it("tells a voltage 4 % too low as far below", () => {
    const low = agreement(with_({ voltage: (part, row) => 0.96 * samples.voltage(part, row) }), envelope);
    expect(low.rms).toBeCloseTo(0.04, 3);
    expect(low.worst).toMatchObject({ part: "motor", quantity: "voltage" });
  });

  it("takes what is early by less than its tube as agreeing, and no more than that", () => {
    const early = (rows: number) =>
      agreement(
        with_({ rows: samples.rows - rows, current: (part, row) => samples.current(part, row + rows) }),
        envelope,
      );
    expect(early(32).rms).toBeLessThan(5e-3);
    expect(early(512).rms).toBeGreaterThan(0.02);
  });

  it("tells a run-up 10 % too long by a slower speed", () => {
    const slow = agreement(
      with_({ state: (part, row) => samples.state(part, Math.floor(row / 1.1)) }),
      envelope,
    );
    expect(Math.abs(slow.runUp - 0.1)).toBeLessThan(0.02);
  });
});

describe("the agreement on a fuse (constructed cases)", () => {
  const { circuit: shed } = exampleNamed("ice-shed");
  const script = { ...asStated, delay_s: () => Number.POSITIVE_INFINITY };
  const one = tellWave(shed, { script }, { from_s: 0, to_s: 0.6 });
  const expected = tellWhole(plantOf(shed), script, Number.POSITIVE_INFINITY, 0.6, { tolerance: 1e-6 });
  if (isFailure(one) || isFailure(expected)) throw new Error("not told");
  it("tells a melt fraction 8 % too high", () => {
    const { samples: all } = one;
    const hot: WaveTelling = {
      ...one,
      samples: { ...all, rows: all.rows, state: (part, row) => 1.08 * all.state(part, row) },
    };
    expect(Math.abs(agreement(hot, expected).melt - 0.08)).toBeLessThan(0.01);
  });
});
