import Papa from "papaparse";
import type { Issue } from "../issue.ts";
import { received } from "../shape/shape.ts";
import { type Column, columnOf, unitBehind } from "./csvColumns.ts";
import { beginsNumber, COMMA_ADVICE, type Decimal, decimalOf, numberAndRest } from "./csvNumbers.ts";
import { type CurvePoint, MOST_POINTS } from "./curvePoints.ts";

/** A curve read from text, and the line that each point stands on. */
export interface CurveTable {
  readonly points: readonly CurvePoint[];
  /** Counted from 1. */
  readonly lines: readonly number[];
  /** Columns of current and time, counted from 1. */
  readonly columns: { readonly current: number; readonly time: number };
}

/** Longest text that is read, in characters. */
export const LONGEST_CSV = 100_000;

interface Line {
  readonly cells: readonly string[];
  readonly number: number;
}

/** Where current and time stand, counted from 0. */
interface Layout {
  readonly columns: readonly (Column | null)[];
  readonly current: number;
  readonly time: number;
  readonly header: boolean;
}

/**
 * A datasheet curve from text in columns.
 *
 * With a header that names current and time in either order, and may give their units ("A", "kA", "x rating", "%";
 * "s", "ms", "min", "h"); or without one: current in A, then time in s. Columns are parted by semicolons, tabs or
 * commas; decimals have a point, or a comma where commas do not part the columns. Blank lines and lines that
 * begin with # are passed over.
 *
 * @param text at most 100 000 characters and 500 points
 * @param rating_A rating of the fuse, for curves in multiples of it
 * @returns points in A and s, as they stand in the text; or everything that is wrong with it, by line and column.
 *   Whether a fuse could have the curve is for `fitMelt` to say.
 *
 * Checked by packages/cabinet/test/fuseCsv.test.ts.
 */
export function readCurveCsv(text: string, rating_A: number): CurveTable | Issue[] {
  if (text.length > LONGEST_CSV)
    return [issue("", `a curve of at most ${LONGEST_CSV} characters`, `${text.length} characters`)];
  const lines = linesOf(text);
  if (lines.length === 0) return [issue("", "a curve, as 60;25 a line: current in A, time in s", "no lines")];
  const layout = layoutOf(lines[0], rating_A);
  if (Array.isArray(layout)) return layout;
  const rows = layout.header ? lines.slice(1) : lines;
  if (rows.length > MOST_POINTS)
    return [issue("", `a curve of at most ${MOST_POINTS} points`, `${rows.length} lines`)];
  const decimal = decimalOf(numbersOf(rows, layout));
  const read = rows.map((row) => pointOf(row, layout, decimal, rating_A));
  const issues = read.flatMap((one) => (Array.isArray(one) ? one : []));
  if (issues.length > 0) return issues;
  const found = read as { point: CurvePoint; bare: boolean }[];
  const table: CurveTable = {
    points: found.map(({ point }) => point),
    lines: rows.map((row) => row.number),
    columns: { current: layout.current + 1, time: layout.time + 1 },
  };
  const bare = !layout.header && found.every((one) => one.bare);
  return bare ? sureOfAmperes(table, rating_A) : table;
}

function issue(path: string, expected: string, found: string): Issue {
  return { path, expected, received: found };
}

function linesOf(text: string): Line[] {
  const bare = text.replace(/^\uFEFF/, "");
  const delimiter = bare.includes(";") ? ";" : bare.includes("\t") ? "\t" : ",";
  return Papa.parse(bare, { delimiter })
    .data.map((cells, n) => ({ cells: cells.map((cell) => cell.trim()), number: n + 1 }))
    .filter(({ cells }) => !cells[0].startsWith("#") && cells.some((cell) => cell !== ""));
}

function layoutOf(first: Line, rating_A: number): Layout | Issue[] {
  if (first.cells.some(beginsNumber))
    return {
      columns: [
        { holds: "current", scale: 1 },
        { holds: "time", scale: 1 },
      ],
      current: 0,
      time: 1,
      header: false,
    };
  const columns = first.cells.map((cell) => columnOf(cell, rating_A));
  const place = (n: number) => `line ${first.number}, column ${n + 1}`;
  const bad = columns.flatMap((column, n) =>
    column === "unit"
      ? [issue(place(n), "a unit in the header, as (A), (x rating), (s) or (ms)", received(first.cells[n]))]
      : [],
  );
  if (bad.length > 0) return bad;
  const known = columns as (Column | null)[];
  const all = (holds: Column["holds"]) => known.flatMap((column, n) => (column?.holds === holds ? [n] : []));
  const [current, time] = [all("current"), all("time")];
  if (current.length === 1 && time.length === 1)
    return { columns: known, current: current[0], time: time[0], header: true };
  return [
    issue(
      `line ${first.number}`,
      `a header that names one column of current and one of time, as "current (A);time (s)", or two numbers`,
      received(first.cells.join(" | ")),
    ),
  ];
}

function numbersOf(rows: readonly Line[], layout: Layout): string[] {
  return rows.flatMap(({ cells }) => [cells[layout.current] ?? "", cells[layout.time] ?? ""]);
}

function pointOf(
  row: Line,
  layout: Layout,
  decimal: Decimal,
  rating_A: number,
): Issue[] | { point: CurvePoint; bare: boolean } {
  const filled = row.cells.reduce((count, cell, n) => (cell === "" ? count : n + 1), 0);
  if (filled > layout.columns.length)
    return [
      issue(
        `line ${row.number}`,
        `${layout.columns.length} columns; where decimals have a comma, semicolons or tabs between the columns`,
        `${filled} columns`,
      ),
    ];
  const [current, time] = [layout.current, layout.time].map((n) =>
    cellValue(row, n, layout.columns[n] as Column, decimal, rating_A),
  );
  const issues = [current, time].flatMap((cell) => ("expected" in cell ? [cell] : []));
  if ("expected" in current || "expected" in time) return issues;
  return { point: [current.value, time.value], bare: current.bare };
}

/** A value in A or s; `bare` when the cell had no unit of its own. */
function cellValue(
  row: Line,
  n: number,
  column: Column,
  decimal: Decimal,
  rating_A: number,
): Issue | { value: number; bare: boolean } {
  const cell = row.cells[n] ?? "";
  const place = `line ${row.number}, column ${n + 1}`;
  const wanted =
    column.holds === "current" ? "a current above 0, as 60 or 60.5" : "a time above 0, as 25 or 0.5";
  if (cell === "") return issue(place, wanted, "nothing");
  const read = numberAndRest(cell, decimal);
  if (read === null && cell.includes(","))
    return issue(place, wanted + COMMA_ADVICE[decimal], received(cell));
  if (read === null || !(read.value > 0)) return issue(place, wanted, received(cell));
  if (read.rest === "") return { value: read.value * column.scale, bare: true };
  const unit = unitBehind(read.rest, rating_A);
  if (unit?.holds !== column.holds)
    return issue(place, `${wanted}, in a unit of ${column.holds}`, received(cell));
  return { value: read.value * unit.scale, bare: false };
}

/** Bare numbers that all lie below the rating are multiples of it, or belong to another fuse: ask. */
function sureOfAmperes(table: CurveTable, rating_A: number): CurveTable | Issue[] {
  const most_A = Math.max(...table.points.map(([current_A]) => current_A));
  if (most_A > rating_A) return table;
  return [
    issue(
      `line ${table.lines[0]}, column 1`,
      `currents in A above the rating of ${rating_A} A, or a header that says "x rating"`,
      `none above ${most_A} A`,
    ),
  ];
}
