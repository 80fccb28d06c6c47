import type { Cabinet } from "@startgap/cabinet";
import type { FailureGravity, FailureMoment, FailureReport, FailureRow } from "@startgap/study";
import type { Screen } from "../io.ts";
import { caution } from "./cautions.ts";
import { percent, volts } from "./numbers.ts";
import { type Paint, painter } from "./paint.ts";
import { table } from "./table.ts";
import { labelled, wrap } from "./wrap.ts";

const HEADS: Readonly<Record<FailureGravity, string>> = {
  danger: "Danger",
  "stops work": "What stops the work",
  unnoticed: "What nobody notices",
  slight: "The rest",
};
const ORDER: readonly FailureGravity[] = ["danger", "stops work", "unnoticed", "slight"];

/** "120 V, then 202 V (168 %)": at once and in the end; the highest on the way where it stands out. */
function voltageCell(moment: FailureMoment, k: number): string {
  const [first, last] = [moment.first.points[k], moment.last.points[k]];
  const highest = moment.highest_V[k];
  const end = last.state === "dead" ? "dead" : `${volts(last.voltage_V)} (${percent(last.share)})`;
  const peak = Math.max(first.voltage_V, last.voltage_V);
  const above = highest > 1.1 * last.nominal_V && highest > 1.02 * peak ? `, up to ${volts(highest)}` : "";
  return `${first.state === "dead" ? "dead" : volts(first.voltage_V)}, then ${end}${above}`;
}

/** What every motor, load and coil sees: a line each, a column a situation. */
function voltageRows({ moments }: FailureRow): string[][] {
  const head = ["", ...moments.map(({ moment }) => moment)];
  const rows = moments[0].first.points.map(({ part, is }, k) => [
    is === "coil" ? `coil of ${part}` : part,
    ...moments.map((moment) => voltageCell(moment, k)),
  ]);
  return [head, ...rows];
}

const told = ({ moment, tells }: FailureMoment): string =>
  `${moment}: ${tells.length === 0 ? "nothing" : tells.join("; ")}`;

/** What motors and loads are left with while running: on one line. */
function seen({ moments: [running] }: FailureRow): string {
  const { last, chatters, highest_V } = running;
  const cells = last.points.map(({ part, is, state, voltage_V }, k) => {
    if (is === "coil") return null;
    if (chatters !== null) return `${part} up to ${volts(highest_V[k])}`;
    return state === "dead" ? `${part} dead` : `${part} ${volts(voltage_V)}`;
  });
  return cells.filter((cell) => cell !== null).join(", ");
}

function rowLines(row: FailureRow, width: number, paint: Paint, all: boolean): string[] {
  const field = (label: string, text: string): string[] =>
    labelled(`  ${label}: `, text, width).map((line) => paint("dim", line));
  const detail = [
    ...(row.joined.length === 0 ? [] : field("Looks dead and is not", row.joined.join(", "))),
    ...field("Tells", row.moments.map(told).join(". ")),
    ...table(voltageRows(row), width - 2).map((line) => paint("dim", `  ${line}`)),
    "",
  ];
  return [
    ...wrap(row.says, width),
    ...field("Stays live", row.live.length === 0 ? "nothing" : row.live.join(", ")),
    ...field("Sees", seen(row)),
    ...labelled("  Change: ", row.change, width),
    ...(all ? detail : []),
  ];
}

/** The single-failure table for a person, as lines. */
export function failuresText(
  cabinet: Cabinet,
  report: FailureReport,
  screen: Screen,
  all: boolean,
): string[] {
  const paint = painter(screen.colour);
  const { width } = screen;
  const sections = ORDER.flatMap((gravity) => {
    const rows = report.rows.filter((row) => row.gravity === gravity);
    if (rows.length === 0) return [];
    const lines = rows.flatMap((row) => rowLines(row, width, paint, all));
    return ["", paint("bold", HEADS[gravity]), ...lines];
  });
  return [
    ...wrap(`What each single failure leaves: ${report.rows.length} of them.`, width).map((line) =>
      paint("bold", line),
    ),
    ...wrap(cabinet.title, width).map((line) => paint("dim", line)),
    ...sections,
    "",
    ...report.notes.flatMap((note) => wrap(note, width)).map((line) => paint("dim", line)),
    ...wrap(caution(cabinet.circuit), width).map((line) => paint("dim", line)),
  ];
}
