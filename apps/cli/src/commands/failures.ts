import { failures, isFailure } from "@startgap/study";
import type { Io } from "../io.ts";
import { jsonText } from "../json.ts";
import { giveUp, prepare } from "../prepare.ts";
import { watched } from "../progress.ts";
import type { SettingFlags } from "../settings.ts";
import { exit } from "../status.ts";
import { failuresText } from "../text/failures.ts";
import { lines } from "../text/plain.ts";

export interface FailuresFlags extends SettingFlags {
  readonly json?: boolean;
  readonly all?: boolean;
}

/** `startgap failures FILE`: what each single failure leaves live, and whether anything tells. */
export async function failuresCommand(file: string, flags: FailuresFlags, io: Io): Promise<number> {
  const ready = await prepare({ file, flags }, io);
  if (typeof ready === "number") return ready;
  const report = watched(io, "Failing", (onProgress) =>
    failures(ready.cabinet, { ...ready.options, onProgress }),
  );
  if (isFailure(report)) return giveUp(report, io);
  io.out.write(
    flags.json ? jsonText(report) : lines(failuresText(ready.cabinet, report, io.out, flags.all ?? false)),
  );
  return exit.passed;
}
