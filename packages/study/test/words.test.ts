import { describe, expect, it } from "vitest";
import { amperes, percent, ratio, seconds, setting, volts } from "../src/words.ts";

describe("figures as a builder says them", () => {
  it.each([
    [seconds, 0, "under 0.01 s"],
    [seconds, 0.0099, "under 0.01 s"],
    [seconds, 0.464, "0.46 s"],
    [seconds, 0.96, "1.0 s"],
    [seconds, 9.96, "10.0 s"],
    [seconds, 12.3, "12 s"],
    [setting, 0.5, "0.5 s"],
    [setting, 12.5, "12.5 s"],
    [setting, 3, "3 s"],
    [volts, 119.6, "120 V"],
    [volts, 16.44, "16.4 V"],
    [amperes, 42.4, "42 A"],
    [amperes, 5.55, "5.5 A"],
    [percent, 84.6, "85 %"],
    [ratio, 2.18, "2.2"],
    [ratio, 12.6, "13"],
  ] as const)("%o of %s", (say, value, text) => {
    expect(say(value)).toBe(text);
  });
});
