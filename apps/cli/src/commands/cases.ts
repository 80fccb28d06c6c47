import { cases, isFailure } from "@startgap/study";
import { type DipFlags, readDipSettings } from "../dipSettings.ts";
import type { Io } from "../io.ts";
import { jsonText } from "../json.ts";
import { giveUp, prepare } from "../prepare.ts";
import { watched } from "../progress.ts";
import type { SettingFlags } from "../settings.ts";
import { exit } from "../status.ts";
import { casesText } from "../text/caseStories.ts";
import { lines } from "../text/plain.ts";

export interface CasesFlags extends SettingFlags, DipFlags {
  readonly json?: boolean;
  readonly all?: boolean;
}

/** `startgap cases FILE`: what the day, the line and a failed part bring, and what to change. */
export async function casesCommand(file: string, flags: CasesFlags, io: Io): Promise<number> {
  const { settings, issues } = readDipSettings(flags);
  const ready = await prepare({ file, flags, issues }, io);
  if (typeof ready === "number") return ready;
  const { cabinet, options } = ready;
  const report = watched(io, "Telling cases", (onProgress) =>
    cases(cabinet, { ...options, ...settings, onProgress }),
  );
  if (isFailure(report)) return giveUp(report, io);
  io.out.write(flags.json ? jsonText(report) : lines(casesText(cabinet, report, io.out, flags.all ?? false)));
  return report.findings.some((f) => f.outcome === "fail") ? exit.failed : exit.passed;
}
