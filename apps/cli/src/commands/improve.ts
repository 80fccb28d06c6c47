import { improve, isFailure } from "@startgap/study";
import type { Io } from "../io.ts";
import { jsonText } from "../json.ts";
import { giveUp, prepare } from "../prepare.ts";
import { watched } from "../progress.ts";
import type { SettingFlags } from "../settings.ts";
import { exit } from "../status.ts";
import { improveText } from "../text/improve.ts";
import { lines } from "../text/plain.ts";

export interface ImproveFlags extends SettingFlags {
  readonly json?: boolean;
}

/** `startgap improve FILE`: every single change that the file leaves room for, the most helpful first. */
export async function improveCommand(file: string, flags: ImproveFlags, io: Io): Promise<number> {
  const ready = await prepare({ file, flags }, io);
  if (typeof ready === "number") return ready;
  const report = watched(io, "Trying changes", (onProgress) =>
    improve(ready.cabinet, { ...ready.options, onProgress }),
  );
  if (isFailure(report)) return giveUp(report, io);
  io.out.write(flags.json ? jsonText(report) : lines(improveText(ready.cabinet, report, io.out)));
  return report.asItIs.fails > 0 ? exit.failed : exit.passed;
}
