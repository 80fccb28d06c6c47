import { gravest } from "@startgap/study";
import { describe, expect, it } from "vitest";
import { caseRows } from "../../apps/cli/src/text/cases.ts";
import { mapRows, passRuns, passSentence, printedRows } from "../../apps/cli/src/text/delayMap.ts";
import { findingLines, togetherLines } from "../../apps/cli/src/text/findings.ts";
import { amperes, percent, seconds, setting, significant, volts } from "../../apps/cli/src/text/numbers.ts";
import { painter } from "../../apps/cli/src/text/paint.ts";
import { table } from "../../apps/cli/src/text/table.ts";
import { labelled, wrap } from "../../apps/cli/src/text/wrap.ts";
import { finding, map, report } from "./invented.ts";

const plainPaint = painter(false);

describe("numbers for people", () => {
  it("carry no more digits than a meter gives", () => {
    expect([volts(101.23), volts(20.93), volts(239.6)]).toEqual(["101 V", "20.9 V", "240 V"]);
    expect([amperes(96.13), amperes(15.24)]).toEqual(["96 A", "15.2 A"]);
    expect([0.51789, 5, 12.345, 0, 599, 6470, 43500].map(seconds)).toEqual([
      "0.52 s",
      "5.0 s",
      "12 s",
      "0 s",
      "600 s",
      "110 min",
      "12 h",
    ]);
    expect([percent(0.2134), percent(0.0123), percent(1)]).toEqual(["21 %", "1.2 %", "100 %"]);
    expect([setting(6), setting(1.5), setting(0.30000000000000004)]).toEqual(["6 s", "1.5 s", "0.3 s"]);
  });

  it("say that a value is not known rather than invent one", () => {
    for (const say of [volts, amperes, seconds, percent, setting]) {
      expect([say(null), say(Number.NaN), say(Infinity)]).toEqual(["-", "-", "-"]);
    }
  });

  it("round across a power of ten without an exponent", () => {
    expect(significant(0.0996, 2)).toBe("0.10");
    expect(significant(99.96, 3)).toBe("100");
    expect(significant(12345, 2)).toBe("12000");
  });
});

describe("wrapping", () => {
  it("never makes a line longer than asked for, but for one long word", () => {
    const text = "one two three four five six seven eight nine ten eleven twelve";
    for (const line of wrap(text, 14, 2)) expect(line.length).toBeLessThanOrEqual(14);
    expect(
      wrap(text, 14, 2)
        .map((l) => l.trim())
        .join(" "),
    ).toBe(text);
    expect(wrap("a extraordinarily b", 5)).toEqual(["a", "extraordinarily", "b"]);
  });

  it("hangs later lines under the first behind a label", () => {
    expect(labelled("FAIL  ", "one two three four five six", 28)).toEqual([
      "FAIL  one two three four",
      "      five six",
    ]);
  });

  it("takes control characters out of names, so that a file cannot steer a terminal", () => {
    expect(wrap("a\u001b[31mb\u202ec\nd", 80)).toEqual(["a[31mbc d"]);
  });
});

describe("tables", () => {
  const rows = [
    ["", "alone", "both"],
    ["pump", "up in 0.5 s", "-"],
  ];

  it("align columns where they fit", () => {
    expect(table(rows, 80)).toEqual(["      alone        both", "pump  up in 0.5 s  -"]);
  });

  it("become a list where they do not", () => {
    expect(table(rows, 12)).toEqual(["pump", "  alone: up in 0.5 s", "  both: -"]);
  });
});

describe("findings", () => {
  const findings = [
    finding("pass", "fuse holds", "line fuses"),
    finding("caution", "receptacle sag", "lamps"),
    finding("fail", "motor starts", "pump 2"),
    finding("pass", "motor starts", "pump 1", "one"),
    finding("caution", "receptacle sag", "lamps", "one"),
    finding("fail", "fuse holds", "line fuses", "together"),
  ];

  it("come gravest first, each question once, what passes gathered", () => {
    expect(findingLines(report(findings), 80, plainPaint, false)).toEqual([
      "FAIL     pump 2: motor starts, fail (staggered).",
      "CAUTION  lamps: receptacle sag, caution (staggered).",
      "PASS     fuse holds: line fuses; motor starts: pump 1",
    ]);
  });

  it("tell of the way the cabinet is run rather than of the first motor alone, where both are as grave", () => {
    const both = [finding("caution", "sag", "lamps", "one"), finding("caution", "sag", "lamps", "staggered")];
    expect(gravest(report(both))?.case).toBe("staggered");
    const worse = [finding("fail", "sag", "lamps", "one"), finding("caution", "sag", "lamps", "staggered")];
    expect(gravest(report(worse))?.case).toBe("one");
  });

  it("each have a sentence when all are asked for", () => {
    expect(findingLines(report(findings), 80, plainPaint, true)).toHaveLength(4);
  });

  it("of all at once stand apart when something is held back", () => {
    expect(togetherLines(report(findings), 80, plainPaint)).toEqual([
      "FAIL     line fuses: fuse holds, fail (together).",
    ]);
    expect(togetherLines(report(findings, false), 80, plainPaint)).toEqual([]);
  });

  it("name the gravest, or none when all passes", () => {
    expect(gravest(report(findings))?.part).toBe("pump 2");
    expect(gravest(report([finding("pass", "motor starts", "pump 1")]))).toBeNull();
  });

  it("say their verdict in a word, with or without colour", () => {
    const coloured = findingLines(report(findings), 80, painter(true), false);
    const bare = findingLines(report(findings), 80, plainPaint, false);
    expect(coloured[0]).toContain("\u001b[1;31mFAIL\u001b[0m");
    // biome-ignore lint/suspicious/noControlCharactersInRegex: the codes are what is looked for
    expect(coloured.map((line) => line.replace(/\u001b\[[\d;]*m/g, ""))).toEqual(bare);
  });
});

describe("the table of cases", () => {
  it("tells what became of every part, trouble in capitals", () => {
    expect(caseRows(report([]))).toEqual([
      ["", "first alone", "all at once", "after 6 s"],
      ["pump 1", "up in 0.52 s, low 101 V", "STALLS, low 101 V", "up in 0.52 s, low 101 V"],
      ["pump 2", "-", "up in 12 s, low 99 V", "up in 12 s, low 99 V"],
      ["lamps", "low 104 V", "low 104 V", "low 104 V"],
      ["line fuses", "21 % to melting", "OPENS at 9.1 s", "21 % to melting"],
      ["contactor", "holds, coil 20.9 V", "DROPS OUT 14 times, coil 20.9 V", "holds, coil 20.9 V"],
    ]);
  });
});

describe("the delay map in words", () => {
  it("finds the stretches that pass", () => {
    expect(passRuns([true, false, true, true, false, true])).toEqual([
      [0, 0],
      [2, 3],
      [5, 5],
    ]);
    expect(passRuns([false, false])).toEqual([]);
  });

  it("tells every stretch, and when there is none", () => {
    const gap = map((d) => d > 1.05 && !(d > 2.95 && d < 3.05));
    expect(passSentence(gap)).toBe(
      "Of the delays tried, up to 12 s, those from 1.1 s to 2.9 s and from 3.1 s to 12 s pass.",
    );
    expect(passSentence(map(() => false))).toBe("No delay up to 12 s passes.");
  });

  it("gathers neighbouring delays that read the same", () => {
    expect(mapRows(map((d) => d > 1.05))).toEqual([
      ["delay", "motors low", "slowest start", "receptacles low", "to melting", ""],
      ["0 s to 0.4 s", "99 V", "STALLS", "104 V", "21 %", "FAIL"],
      ["0.5 s to 1 s", "99 V", "0.60 s", "104 V", "21 %", "FAIL"],
      ["1.1 s to 12 s", "99 V", "0.60 s", "104 V", "21 %", "PASS"],
    ]);
  });

  it("prints both sides of every edge, the ends and the recommended delay, in order", () => {
    const rows = printedRows(map((d) => d > 1.05));
    expect(rows).toEqual([...rows].sort((a, b) => a - b));
    for (const row of [0, 10, 11, 15, 120]) expect(rows).toContain(row);
    expect(rows.length).toBeLessThan(20);
  });
});
