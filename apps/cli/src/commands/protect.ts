import { heat, isFailure, protect } from "@startgap/study";
import type { Io } from "../io.ts";
import { jsonText } from "../json.ts";
import { giveUp, prepare } from "../prepare.ts";
import { watched } from "../progress.ts";
import type { SettingFlags } from "../settings.ts";
import { exit } from "../status.ts";
import { lines } from "../text/plain.ts";
import { protectText } from "../text/protect.ts";

export interface ProtectFlags extends SettingFlags {
  readonly json?: boolean;
  readonly all?: boolean;
}

/** `startgap protect FILE`: does what is fitted protect, does it stay cool, and what to change. */
export async function protectCommand(file: string, flags: ProtectFlags, io: Io): Promise<number> {
  const ready = await prepare({ file, flags }, io);
  if (typeof ready === "number") return ready;
  const { cabinet, options } = ready;
  const report = watched(io, "Judging", () => protect(cabinet, options));
  if (isFailure(report)) return giveUp(report, io);
  const warm = heat(cabinet, options);
  if (isFailure(warm)) return giveUp(warm, io);
  io.out.write(
    flags.json
      ? jsonText({ ...report, heat: warm })
      : lines(protectText(cabinet, report, warm, io.out, flags.all ?? false)),
  );
  const fails = [...report.findings, ...warm.findings].some((f) => f.outcome === "fail");
  return fails ? exit.failed : exit.passed;
}
