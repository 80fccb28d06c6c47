import type { Cabinet } from "@startgap/cabinet";
import type { DelayAdvice, DelayMap } from "@startgap/study";
import type { Screen } from "../io.ts";
import { caution } from "./cautions.ts";
import { verdictLines } from "./findings.ts";
import { percent, seconds, setting, volts } from "./numbers.ts";
import { painter } from "./paint.ts";
import { table } from "./table.ts";
import { wrap } from "./wrap.ts";

/** Rows of the printed map; `--json` has every delay. */
const ROWS = 12;

/** Delays of which every one passes, as first and last index. */
export function passRuns(passes: readonly boolean[]): [first: number, last: number][] {
  const runs: [number, number][] = [];
  passes.forEach((pass, i) => {
    if (!pass) return;
    if (passes[i - 1]) runs[runs.length - 1][1] = i;
    else runs.push([i, i]);
  });
  return runs;
}

/** "Passes from 1.1 s to 12 s.", with every gap told. */
export function passSentence(map: DelayMap): string {
  const at = (i: number): string => setting(map.delay_s[i]);
  const runs = passRuns(map.passes).map(([a, b]) => (a === b ? `at ${at(a)}` : `from ${at(a)} to ${at(b)}`));
  const last = map.delay_s.length - 1;
  if (runs.length === 0) return `No delay up to ${at(last)} passes.`;
  return `Of the delays tried, up to ${at(last)}, those ${runs.join(" and ")} pass.`;
}

/** The rows worth printing: evenly spread, both sides of every edge, and the recommended one. */
export function printedRows(map: DelayMap): number[] {
  const n = map.delay_s.length;
  const even = Array.from({ length: ROWS }, (_, k) => Math.round((k * (n - 1)) / (ROWS - 1)));
  const edges = map.passes.flatMap((pass, i) => (i > 0 && pass !== map.passes[i - 1] ? [i - 1, i] : []));
  const near = (value: number | null): number[] =>
    value === null ? [] : [map.delay_s.findIndex((d) => d >= value - 1e-9)].filter((i) => i >= 0);
  const rows = new Set([...even, ...edges.slice(0, ROWS), ...near(map.advice.recommended_s)]);
  return [...rows].filter((i) => i >= 0 && i < n).sort((a, b) => a - b);
}

const lowest = (values: readonly (number | null)[]): number | null =>
  values.reduce<number | null>((low, v) => (v === null ? low : Math.min(low ?? v, v)), null);

interface MapColumn {
  readonly name: string;
  readonly cell: (i: number) => string;
}

/** A column a question: the worst of all motors, of all receptacles, of all fuses, of all contactors. */
function mapColumns(map: DelayMap): MapColumn[] {
  const { motors, points, contactors } = map;
  /** A fuse without a curve never heats. */
  const heated = map.fuses.filter((f) => f.meltFraction.some((x) => x > 0));
  const slowest = (i: number): number | null =>
    motors.some((m) => m.runUp_s[i] === null) ? null : Math.max(...motors.map((m) => m.runUp_s[i] ?? 0));
  /** Chatter is not followed to its end. */
  const atLeast = (i: number): string => (map.chatters[i] ? "over " : "");
  const columns: (MapColumn & { of: readonly unknown[] })[] = [
    { name: "delay", of: map.delay_s, cell: (i) => setting(map.delay_s[i]) },
    { name: "motors low", of: motors, cell: (i) => volts(lowest(motors.map((m) => m.lowestVoltage_V[i]))) },
    {
      name: "slowest start",
      of: motors,
      cell: (i) => (map.chatters[i] ? "chatters" : slowest(i) === null ? "STALLS" : seconds(slowest(i))),
    },
    {
      name: "receptacles low",
      of: points,
      cell: (i) => volts(lowest(points.map((p) => p.lowestVoltage_V[i]))),
    },
    {
      name: "to melting",
      of: heated,
      cell: (i) => atLeast(i) + percent(Math.max(...heated.map((f) => f.meltFraction[i]))),
    },
    {
      name: "drop-outs",
      of: contactors,
      cell: (i) => `${atLeast(i)}${Math.max(...contactors.map((c) => c.dropOuts[i]))}`,
    },
    { name: "", of: map.delay_s, cell: (i) => (map.passes[i] ? "PASS" : "FAIL") },
  ];
  return columns.filter((column) => column.of.length > 0);
}

/** Neighbouring delays that read the same, as one row: "0.5 s to 12 s". */
function runsOfRows(rows: readonly string[][]): string[][] {
  const runs: { first: string; last: string; rest: string[] }[] = [];
  for (const [delay, ...rest] of rows) {
    const before = runs.at(-1);
    if (before !== undefined && before.rest.join("|") === rest.join("|")) before.last = delay;
    else runs.push({ first: delay, last: delay, rest });
  }
  return runs.map(({ first, last, rest }) => [first === last ? first : `${first} to ${last}`, ...rest]);
}

/** Every delay where they fall into few stretches, else those worth printing. */
export function mapRows(map: DelayMap): string[][] {
  const columns = mapColumns(map);
  const row = (i: number): string[] => columns.map((c) => c.cell(i));
  const all = runsOfRows(map.delay_s.map((_, i) => row(i)));
  return [columns.map((c) => c.name), ...(all.length <= ROWS + 4 ? all : printedRows(map).map(row))];
}

/** The advice in one sentence, as it is set on the dial. */
export function adviceSentence(advice: DelayAdvice): string {
  const { recommended_s, reason } = advice;
  return recommended_s === null || recommended_s === 0
    ? reason
    : `Hold the second motor back ${setting(recommended_s)}. ${reason}`;
}

/** A delay map for a person, as lines. */
export function delayMapText(cabinet: Cabinet, map: DelayMap, screen: Screen): string[] {
  const { width } = screen;
  const paint = painter(screen.colour);
  const tried = map.passes.length > 0;
  const verdict = tried && !map.passes.includes(true) ? "fail" : "pass";
  return [
    ...verdictLines(verdict, adviceSentence(map.advice), width, paint, "bold"),
    ...wrap(cabinet.title, width).map((line) => paint("dim", line)),
    "",
    ...(tried ? [...wrap(passSentence(map), width), "", ...table(mapRows(map), width), ""] : []),
    ...wrap(caution(cabinet.circuit), width).map((line) => paint("dim", line)),
  ];
}
