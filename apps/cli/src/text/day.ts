import type { Cabinet } from "@startgap/cabinet";
import type { DayReport, DemandFrom } from "@startgap/study";
import type { Screen } from "../io.ts";
import { caution } from "./cautions.ts";
import { verdictLines } from "./findings.ts";
import { count, percent, seconds } from "./numbers.ts";
import { painter } from "./paint.ts";
import { sections } from "./protect.ts";
import { table } from "./table.ts";
import { wrap } from "./wrap.ts";

const drawn: Readonly<Record<DemandFrom, string>> = {
  "as stated": "air drawn as the file states it",
  "as asked": "air drawn as asked",
  assumed: "a usual day's demand for air assumed",
  calls: "called by a clock, assumed",
};

const clock = (t: number): string => {
  const minutes = Math.floor(t / 60 + 1e-6) % 1440;
  const two = (n: number): string => `${n}`.padStart(2, "0");
  return `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
};

const degrees = (t: number): string => `${Math.round(t)} degC`;

function motorTable({ motors }: DayReport, width: number): string[] {
  const head = ["motor", "starts", "most an hour", "runs", "hottest", "made for", "start capacitor"];
  const rows = motors.map((m) => [
    m.part,
    `${m.starts}`,
    `${m.mostInAnHour.value}${m.allowed === null ? "" : ` of ${Math.floor(m.allowed.perHour)}`}`,
    seconds(m.running_s),
    degrees(m.hottest.value),
    degrees(m.limit_C),
    m.startWinding?.hasCapacitor ? `${seconds(m.startWinding.inAnHour.value)} of 60 s/h` : "-",
  ]);
  return table([head, ...rows], width);
}

function warmTable({ transformers, box }: DayReport, width: number): string[] {
  const rows = [
    ...transformers.map((t) => [
      t.part,
      degrees(t.winding.value),
      degrees(t.insulation_C),
      clock(t.winding.at_s),
    ]),
    ...(box === null
      ? []
      : [["air in the box", degrees(box.hottest.value), "40 degC", clock(box.hottest.at_s)]]),
  ];
  return rows.length === 0 ? [] : ["", ...table([["part", "hottest", "made for", "at"], ...rows], width)];
}

function fuseTable({ fuses }: DayReport, width: number): string[] {
  const rows = fuses.flatMap(({ part, worst, mildest, melted_s }) =>
    worst === null || mildest === null
      ? []
      : [
          [
            part,
            melted_s === null
              ? `${percent(worst.meltFraction)} at ${clock(worst.at_s)}`
              : `melts at ${clock(melted_s)}`,
            degrees(worst.air_C),
            `${percent(mildest.meltFraction)} at ${clock(mildest.at_s)}`,
            degrees(mildest.air_C),
          ],
        ],
  );
  const head = ["fuse, of melting", "worst start", "air", "mildest", "air"];
  return rows.length === 0 ? [] : ["", ...table([head, ...rows], width)];
}

function answer({ findings, season }: DayReport): string {
  const fails = findings.filter((f) => f.outcome === "fail").length;
  const doubts = findings.filter((f) => f.outcome === "caution").length;
  if (fails > 0)
    return `A ${season} day leaves ${count(fails, "thing")} to change, and ${doubts} to look at.`;
  return doubts > 0
    ? `Nothing fails in a ${season} day; ${count(doubts, "thing")} to look at.`
    : `It comes through a ${season} day.`;
}

/** A day for a person, as lines. */
export function dayText(cabinet: Cabinet, report: DayReport, screen: Screen, all: boolean): string[] {
  const { width } = screen;
  const paint = painter(screen.colour);
  const { findings } = report;
  const gravest = (["fail", "caution"] as const).find((word) => findings.some((f) => f.outcome === word));
  const about = `${report.ended} ${report.starts.time_s.length} starts, ${drawn[report.demand]}.`;
  return [
    ...verdictLines(gravest ?? "pass", answer(report), width, paint, "bold"),
    ...wrap(cabinet.title, width).map((line) => paint("dim", line)),
    ...wrap(about, width),
    "",
    ...motorTable(report, width),
    ...warmTable(report, width),
    ...fuseTable(report, width),
    ...sections(findings, width, paint, all),
    "",
    ...report.notes.flatMap((note) => wrap(note, width)).map((line) => paint("dim", line)),
    ...wrap(caution(cabinet.circuit), width).map((line) => paint("dim", line)),
  ];
}
