import { describe, expect, it } from "vitest";
import { readCurveCsv } from "../src/fuse/index.ts";
import { issueText } from "../src/issue.ts";

const CURVE = [
  [60, 30],
  [120, 2.5],
  [180, 0.5],
];

/** Points of a curve of a 30 A fuse, or what is said against it. */
function read(text: string): readonly unknown[] {
  const table = readCurveCsv(text, 30);
  return Array.isArray(table) ? table.map(issueText) : table.points.map(([i, t]) => [round(i), round(t)]);
}

const round = (value: number) => Number(value.toPrecision(12));

describe("a datasheet curve as text", () => {
  it.each([
    ["commas without a header", "60,30\n120,2.5\n180,0.5\n"],
    ["semicolons with decimal commas", "60,0;30\n120,0;2,5\n180,0;0,5"],
    ["tabs with decimal points", "60\t30\n120\t2.5\n180\t0.5"],
    ["a header in plain order", "Current (A),Time (s)\n60,30\n120,2.5\n180,0.5"],
    ["a header in the other order", "time_s;current_A\n30;60\n2.5;120\n0.5;180"],
    ["multiples of the rating", "I/In;t (s)\n2;30\n4;2,5\n6;0,5"],
    ["multiples in words", "multiple of rating,seconds\n2,30\n4,2.5\n6,.5"],
    ["percent of the rating", "Current [% of rating]\tMelting time [s]\n200\t30\n400\t2.5\n600\t0.5"],
    ["kiloamperes and milliseconds", "Current (kA);Time (ms)\n0.06;30000\n0.12;2500\n0.18;500"],
    ["minutes", "amps;mins\n60;0.5\n120;0.041666666666666664\n180;0.008333333333333333"],
    ["units behind the numbers", "60 A;30 s\n4x;2500 ms\n600 %;0.5"],
    ["words for units", "Current in amps,Time in seconds\n60,30\n120,2.5\n180,0.5"],
    ["quoted cells", '"Current, A","Time, s"\n"60","30"\n"120","2,5"\n"180","0,5"'],
    [
      "a byte order mark, remarks, blank lines and carriage returns",
      "\uFEFF# by hand\r\n\r\nA;s\r\n60;30\r\n\r\n120;2,5\r\n180;0,5\r\n",
    ],
    ["columns that are neither", "no;current (A);time (s);remark\n1;60;30;\n2;120;2,5;kink\n3;180;0,5;"],
    ["exponents and empty cells at the end", "6e1,3e1,,\n1.2E2,2.5\n180,5e-1,\n"],
  ])("is read with %s", (_, text) => {
    expect(read(text)).toEqual(CURVE);
  });

  it("keeps the lines on which its points stand", () => {
    const table = readCurveCsv("# remark\nt;I\n30;60\n\n2,5;120", 30);
    expect(table).toMatchObject({ lines: [3, 5], columns: { current: 2, time: 1 } });
  });

  it("may hold a decimal comma before three digits when other cells show that commas are decimal", () => {
    expect(read("60,5;1,125\n70;0,25")).toEqual([
      [60.5, 1.125],
      [70, 0.25],
    ]);
    expect(read("60;0,125")).toEqual([[60, 0.125]]);
  });
});

describe("a text that is no curve", () => {
  it("is refused cell by cell, all at once, by line and column", () => {
    expect(read("Current (A);Time (s)\n60;soon\n-5;3\n;\n;3\n0;NaN\n90;8;7\n80 s;1")).toEqual([
      'line 2, column 2: expected a time above 0, as 25 or 0.5; received "soon"',
      'line 3, column 1: expected a current above 0, as 60 or 60.5; received "-5"',
      "line 5, column 1: expected a current above 0, as 60 or 60.5; received nothing",
      'line 6, column 1: expected a current above 0, as 60 or 60.5; received "0"',
      'line 6, column 2: expected a time above 0, as 25 or 0.5; received "NaN"',
      "line 7: expected 2 columns; where decimals have a comma, semicolons or tabs between the columns; received 3 columns",
      'line 8, column 1: expected a current above 0, as 60 or 60.5, in a unit of current; received "80 s"',
    ]);
  });

  it.each([
    [
      "decimal commas between commas",
      "60,5,30",
      "line 1: expected 2 columns; where decimals have a comma, semicolons",
    ],
    ["a comma that may mean two things", "1,200;0.5", "line 1, column 1: expected a current above 0"],
    [
      "a comma before three digits alone",
      "60;1,200",
      "line 1, column 2: expected a time above 0, as 25 or 0.5, without a comma before three",
    ],
    [
      "two kinds of decimals",
      "60.5;1,5",
      "line 1, column 2: expected a time above 0, as 25 or 0.5, with points or commas",
    ],
    ["thousands and decimals", "1.234,5;20", "line 1, column 1: expected a current above 0"],
    [
      "two commas in a number",
      "1,200,000;0,5",
      "line 1, column 1: expected a current above 0, as 60 or 60.5, with no comma but",
    ],
    [
      "a header without meaning",
      "a;b\n60;30",
      "line 1: expected a header that names one column of current and one of time",
    ],
    [
      "two columns of time",
      "In;melting (s);clearing (s)\n2;3;4",
      "line 1: expected a header that names one column",
    ],
    ["a header of current alone", "current\n60", "line 1: expected a header that names one column"],
    [
      "a unit of something else",
      "Current (furlong);Time (s)\n60;30",
      "line 1, column 1: expected a unit in the header",
    ],
    ["a time in amperes", "Current (A);Time (A)\n60;30", "line 1, column 2: expected a unit in the header"],
    [
      "multiples that do not say so",
      "2;30\n4;2,5",
      "line 1, column 1: expected currents in A above the rating of 30 A",
    ],
    [
      "spaces between the columns",
      "60 30\n120 2",
      'line 1, column 1: expected a current above 0, as 60 or 60.5, in a unit of current; received "60 30"',
    ],
    ["nothing", " \n\n", "expected a curve"],
    ["remarks alone", "# 60;30", "expected a curve"],
  ])("is refused with %s", (_, text, said) => {
    expect(String(read(text)[0]).slice(0, said.length)).toBe(said);
  });

  it("is refused when huge, before it is taken apart", () => {
    expect(read("60;30\n".repeat(20_000))).toEqual([
      "expected a curve of at most 100000 characters; received 120000 characters",
    ]);
    expect(read("60;30\n".repeat(501))).toEqual([
      "expected a curve of at most 500 points; received 501 lines",
    ]);
  });

  it("shows no more than 80 characters of what it found", () => {
    const [said] = read(`60;${"x".repeat(5000)}`);
    expect(String(said).length).toBeLessThan(180);
    expect(read('60;"30\n120;2')).toHaveLength(1);
  });
});
