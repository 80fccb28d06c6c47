import type { Cabinet, Issue } from "@startgap/cabinet";
import { type DayReport, dayInSteps, isFailure, tracesCsv } from "@startgap/study";
import { type DayFlags, readDaySettings } from "../daySettings.ts";
import type { Io, OutputFile } from "../io.ts";
import { jsonText } from "../json.ts";
import { giveUp, prepare, refuse } from "../prepare.ts";
import { watchedSteps } from "../progress.ts";
import type { SettingFlags } from "../settings.ts";
import { exit } from "../status.ts";
import { dayText } from "../text/day.ts";
import { lines } from "../text/plain.ts";

export interface DayCommandFlags extends SettingFlags, DayFlags {
  readonly all?: boolean;
  readonly json?: boolean;
  readonly traces?: string;
  readonly output?: string;
}

/** `startgap day FILE`: every start of a day, how warm everything gets, and what the fuses make of it. */
export async function dayCommand(file: string, flags: DayCommandFlags, io: Io): Promise<number> {
  const asked = readDaySettings(flags);
  const wanted = [
    { flag: "--output", path: flags.output, ending: ".svg" },
    { flag: "--traces", path: flags.traces, ending: ".csv" },
  ];
  const ready = await prepare({ file, flags, wanted, issues: asked.issues }, io);
  if (typeof ready === "number") return ready;
  const { cabinet } = ready;
  const issues = unfit(cabinet, flags);
  if (issues.length > 0) return refuse(issues, io, file);
  const report = await watchedSteps(
    io,
    "Going through the day",
    dayInSteps(cabinet, { ...ready.options, ...asked.options }),
  );
  if (isFailure(report)) return giveUp(report, io);
  const files = await filesOf(report, flags, io);
  io.writeAll(files);
  if (flags.json) io.out.write(jsonText(report));
  else {
    const said = dayText(cabinet, report, io.out, flags.all ?? false);
    io.out.write(lines([...said, ...files.map(({ path }) => `Wrote ${path}`)]));
  }
  return report.findings.some((f) => f.outcome === "fail") ? exit.failed : exit.passed;
}

/** Air is drawn where a pressure switch calls, and a clock calls where none does. */
function unfit({ circuit }: Cabinet, flags: DayFlags): readonly Issue[] {
  const calls = (circuit.controls ?? []).some((c) => c.is === "pressure switch");
  if (!calls && flags.demand !== undefined)
    return [
      {
        path: "--demand",
        expected:
          "a cabinet with a receiver and its pressure switch; --calls sets how often this one is called",
        received: JSON.stringify(flags.demand.slice(0, 80)),
      },
    ];
  if (calls && flags.calls !== undefined)
    return [
      {
        path: "--calls",
        expected:
          "a cabinet without a pressure switch: this one is called by its own; --demand sets what is drawn",
        received: JSON.stringify(flags.calls.slice(0, 80)),
      },
    ];
  return [];
}

async function filesOf(report: DayReport, flags: DayCommandFlags, io: Io): Promise<OutputFile[]> {
  const files: OutputFile[] = [];
  if (flags.traces !== undefined)
    files.push({ path: flags.traces, text: tracesCsv([{ case: report.season, traces: report.traces }]) });
  if (flags.output !== undefined) {
    const { dayFigure, svgText } = await import("@startgap/figures");
    files.push({ path: flags.output, text: svgText(dayFigure(await io.document(), report)) });
  }
  return files;
}
