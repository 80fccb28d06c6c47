import { type Check, check, isFailure, tracesCsv } from "@startgap/study";
import type { Io } from "../io.ts";
import { jsonText } from "../json.ts";
import { giveUp, type Prepared, prepare } from "../prepare.ts";
import { watched } from "../progress.ts";
import type { SettingFlags } from "../settings.ts";
import { statusOf } from "../status.ts";
import { checkText } from "../text/check.ts";
import { lines } from "../text/plain.ts";

export interface CheckFlags extends SettingFlags {
  readonly json?: boolean;
  readonly traces?: string;
  readonly all?: boolean;
  readonly assumptions?: boolean;
}

/** The check as one object: the report, and what was taken without being stated. */
const checkJson = ({ cabinet }: Prepared, { report }: Check): object => ({
  ...report,
  assumptions: cabinet.assumptions,
  notes: cabinet.notes,
});

/** `startgap check FILE`: does it start, do the fuses hold, how long to hold the second motor back. */
export async function checkCommand(file: string, flags: CheckFlags, io: Io): Promise<number> {
  const ready = await prepare(
    { file, flags, wanted: [{ flag: "--traces", path: flags.traces, ending: ".csv" }] },
    io,
  );
  if (typeof ready === "number") return ready;
  const result = watched(io, "Checking", (onProgress) =>
    check(ready.cabinet, { ...ready.options, onProgress }),
  );
  if (isFailure(result)) return giveUp(result, io);
  if (flags.traces !== undefined) io.writeAll([{ path: flags.traces, text: tracesCsv(result.stories) }]);
  const detail = { all: flags.all ?? false, assumptions: flags.assumptions ?? false };
  io.out.write(
    flags.json
      ? jsonText(checkJson(ready, result))
      : lines(checkText(ready.cabinet, result.report, io.out, detail)),
  );
  return statusOf(result.report);
}
