import { tracesCsv } from "@startgap/study";
import { describe, expect, it } from "vitest";
import { jsonText } from "../../apps/cli/src/json.ts";
import { readSettings } from "../../apps/cli/src/settings.ts";
import { statusOf } from "../../apps/cli/src/status.ts";
import { finding, report, story } from "./invented.ts";

describe("exit status of a check", () => {
  it("is 0 when nothing fails, cautions included", () => {
    expect(statusOf(report([finding("pass", "a", "x"), finding("caution", "b", "x")]))).toBe(0);
  });

  it("is 1 when the way the cabinet is run fails, alone or staggered", () => {
    expect(statusOf(report([finding("fail", "a", "x", "staggered")]))).toBe(1);
    expect(statusOf(report([finding("fail", "a", "x", "one")]))).toBe(1);
  });

  it("does not count all at once when something is held back, and counts it when nothing is", () => {
    expect(statusOf(report([finding("fail", "a", "x", "together")]))).toBe(0);
    expect(statusOf(report([finding("fail", "a", "x", "together")], false))).toBe(1);
  });
});

describe("JSON", () => {
  it("holds numbers that are finite or null, and columns as lists", () => {
    const text = jsonText({
      a: Number.NaN,
      b: [Infinity, -0, 0.1 + 0.2],
      c: Float64Array.of(1, Number.NaN),
      d: null,
    });
    expect(JSON.parse(text)).toEqual({ a: null, b: [null, 0, 0.3], c: [1, null], d: null });
    expect(text.endsWith("}\n")).toBe(true);
  });
});

describe("JSON on paper", () => {
  it("keeps a column on a line, and every word as it is", () => {
    const value = { a: [1, null, -2.5e-7, true], b: ["[\n 1,\n 2\n]", "x"], c: [], d: [[1, 2], { e: [3] }] };
    const text = jsonText(value);
    expect(JSON.parse(text)).toEqual(value);
    expect(text).toContain('"a": [1, null, -2.5e-7, true]');
  });
});

describe("traces as columns", () => {
  it("name each quantity with its unit, keep both sides of a jump, leave empty what a story lacks", () => {
    expect(tracesCsv([story("one"), story("together")]).split("\n")).toEqual([
      'case,time_s,"lamps, ""bar"" voltage_V",line fuses melt fraction',
      "one,0,120,",
      "one,0.5,100.5,",
      "one,0.5,119,",
      "one,1,,",
      "together,0,120,0",
      "together,0.5,100.5,0.1",
      "together,0.5,119,0.1",
      "together,1,,0.2",
      "",
    ]);
  });
});

describe("settings", () => {
  it("take times with their units", () => {
    const flags = { delay: "6 s", duration: "0.5min", longest: "1500 ms", step: "100ms", tolerance: "1e-7" };
    expect(readSettings(flags)).toEqual({
      options: { delay_s: 6, duration_s: 30, tolerance: 1e-7, longestDelay_s: 1.5, delayStep_s: 0.1 },
    });
    expect(readSettings({})).toEqual({ options: {} });
  });

  for (const text of ["6", "-1 s", "6 V", "soon", "", "1e999 s", "NaN s", "2 h", "3 s .. 5 s", "0x6 s"]) {
    it(`refuse ${JSON.stringify(text)} as a delay, saying where and what is taken`, () => {
      const read = readSettings({ delay: text });
      expect(read).toMatchObject({ issues: [{ path: "--delay", received: JSON.stringify(text) }] });
    });
  }

  it("tell every wrong one at once", () => {
    const read = readSettings({ delay: "x", duration: "y", tolerance: "1 s", step: "0 s" });
    expect("issues" in read && read.issues.map((issue) => issue.path)).toEqual([
      "--delay",
      "--duration",
      "--tolerance",
      "--step",
    ]);
  });

  it("refuse more delays than a map can hold", () => {
    expect(readSettings({ longest: "1 h", step: "1 ms" })).toMatchObject({ issues: [{ path: "--step" }] });
  });
});
