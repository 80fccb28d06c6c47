import { describe, expect, it } from "vitest";
import * as format from "../src/format.ts";

const plain = (text: string) => text.replaceAll("\u00a0", " ").replaceAll("\u202f", "'");

describe("numbers as words", () => {
  it("rounds to significant digits and writes them out", () => {
    expect(format.significant(1234, 2)).toBe("1200");
    expect(format.significant(0.01234, 2)).toBe("0.012");
    expect(format.significant(9.96, 2)).toBe("10");
    expect(format.significant(-3.04, 2)).toBe("\u22123.0");
    expect(format.significant(0, 2)).toBe("0");
    expect(format.significant(2e-9, 2)).toBe("0.0000000020");
    expect(format.significant(Number.NaN, 2)).toBe("no value");
  });

  it("gives volts whole, and in tenths below ten", () => {
    expect(
      ["101.46", "9.96", "9.94", "0.82", "-0.04", "-2.3"].map((v) => plain(format.volts(Number(v)))),
    ).toEqual(["101 V", "10 V", "9.9 V", "0.8 V", "0 V", "\u22122.3 V"]);
  });

  it("gives amperes and newton metres two digits, speeds three", () => {
    expect(plain(format.amperes(124.4))).toBe("120 A");
    expect(plain(format.newtonMetres(4.003))).toBe("4.0 N m");
    expect(plain(format.speed(1741.6))).toBe("1740 rpm");
  });

  it("never rounds a dial setting away", () => {
    expect(plain(format.setting(12.5))).toBe("12.5 s");
    expect(plain(format.setting(3))).toBe("3 s");
    expect(plain(format.setting(0.1 + 0.2))).toBe("0.3 s");
  });

  it("turns long times into minutes and hours", () => {
    expect([0.458, 12.34, 99.4, 99.6, 5939, 7200].map((t) => plain(format.duration(t)))).toEqual([
      "0.46 s",
      "12 s",
      "99 s",
      "1.7 min",
      "99 min",
      "2.0 h",
    ]);
  });

  it("says 100 % only of a fuse that melted", () => {
    expect(plain(format.meltPercent(0.9999))).toBe("99 %");
    expect(plain(format.meltPercent(1))).toBe("100 %");
    expect(plain(format.meltPercent(1.2))).toBe("100 %");
    expect(plain(format.meltPercent(0.003))).toBe("under 1 %");
    expect(plain(format.percent(0))).toBe("0 %");
  });

  it("gives ticks the decimals of their step and sets thousands apart", () => {
    expect(format.tickTexts([0, 0.5, 1])).toEqual(["0.0", "0.5", "1.0"]);
    expect(format.tickTexts([-20, 0, 20])).toEqual(["\u221220", "0", "20"]);
    expect(format.tickTexts([0, 20_000, 40_000]).map(plain)).toEqual(["0", "20'000", "40'000"]);
    expect(format.tickTexts([3])).toEqual(["3"]);
    expect([0.01, 0.5, 1, 1000, 10_000].map((t) => plain(format.logTickText(t)))).toEqual([
      "0.01",
      "0.5",
      "1",
      "1000",
      "10'000",
    ]);
  });
});
