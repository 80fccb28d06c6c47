import { describe, expect, it } from "vitest";
import { switchOn, waveform } from "../src/index.ts";
import { exampleInrush, exampleWave } from "./waves.ts";
import { newPage } from "./window.ts";

const study = exampleWave();
const pathsOf = (node: SVGSVGElement): string[] =>
  [...node.querySelectorAll("path.curve")].map((path) => path.getAttribute("d") ?? "");
const pointsOf = (d: string): number[][] =>
  [...d.matchAll(/[ML](-?[\d.]+),(-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)]);

describe("a waveform as a picture", () => {
  it("keeps the highest peak where samples far exceed pixels (invariant)", () => {
    const tall = exampleWave();
    const current = tall.traces.columns.find((c) => c.quantity === "current")?.values;
    if (current === undefined) throw new Error("no current");
    current[1777] = 500;
    const drawn = pathsOf(waveform(newPage(), tall, { width: 280 }));
    // Key and two panels, each with its wave and its rms: the current's wave is the last but one.
    const wave = pointsOf(drawn[drawn.length - 2]).map(([, y]) => y);
    const rest = pointsOf(drawn[drawn.length - 1]).map(([, y]) => y);
    const [top, zero] = [Math.min(...wave), Math.max(...rest)];
    const second = [...wave].sort((p, q) => p - q)[1];
    expect(zero - top).toBeGreaterThan(3 * (zero - second));
  });

  it("draws no more points than four to a pixel, however long the window", () => {
    const node = waveform(newPage(), study, { width: 320 });
    for (const d of pathsOf(node)) expect(pointsOf(d).length).toBeLessThan(4 * 320);
  });

  it("shades the clamp meter's window only where it lies in the stretch", () => {
    expect(waveform(newPage(), study).querySelectorAll("rect.link")).toHaveLength(1);
    expect(waveform(newPage(), study, { from_s: 0.2 }).querySelectorAll("rect.link")).toHaveLength(0);
  });

  it("draws an rms only once a whole cycle of it is known, where the window begins later than the story", () => {
    const first = (from_s: number): number => {
      const drawn = pathsOf(waveform(newPage(), { ...study, from_s }, { width: 800 }));
      const left = (d: string): number => pointsOf(d)[0][0];
      return left(drawn[drawn.length - 1]) - left(drawn[drawn.length - 2]);
    };
    expect(first(0)).toBe(0);
    expect(first(1e-9)).toBeGreaterThan(1);
  });

  it("names a part or a stretch that the study does not tell", () => {
    expect(() => waveform(newPage(), study, { part: "saw" })).toThrow(/invalid part: "saw".*line fuses/);
    expect(() => waveform(newPage(), study, { from_s: 3 })).toThrow(/invalid stretch/);
    expect(() => waveform(newPage(), study, { width: 10 })).toThrow(RangeError);
  });
});

describe("a switch-on as a picture", () => {
  it("has a bar an order, as high as its harmonic (invariant)", () => {
    const inrush = exampleInrush();
    const bars = [...switchOn(newPage(), inrush).querySelectorAll("rect.part1-fill")].map((bar) =>
      Number(bar.getAttribute("height")),
    );
    expect(bars).toHaveLength(inrush.harmonics_A.length);
    const scale = bars[1] / inrush.harmonics_A[1];
    bars.forEach((height, order) => {
      expect(Math.abs(height - scale * inrush.harmonics_A[order])).toBeLessThan(0.05);
    });
  });

  it("says the worst in words, and which fuse it takes how far", () => {
    const words = switchOn(newPage(), exampleInrush()).querySelector("desc")?.textContent ?? "";
    expect(words).toContain("first peak 120 A");
    expect(words).toContain("line fuses: one switch-on is 6 %");
  });
});
