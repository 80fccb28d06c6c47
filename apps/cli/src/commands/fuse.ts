import type { MeltTerms } from "@startgap/circuit";
import { check, isFailure } from "@startgap/study";
import { type FuseSheet, fuseSheet } from "../fuseSheet.ts";
import type { Io } from "../io.ts";
import { jsonText } from "../json.ts";
import { named } from "../named.ts";
import { giveUp, prepare, refuse } from "../prepare.ts";
import { watched } from "../progress.ts";
import type { SettingFlags } from "../settings.ts";
import { exit } from "../status.ts";
import { fuseText } from "../text/fuse.ts";
import { lines } from "../text/plain.ts";

export interface FuseFlags extends SettingFlags {
  readonly json?: boolean;
}

/** Terms as a list of pairs, which is how they are read. */
const terms = (t: MeltTerms | null): object | null =>
  t && {
    minimumFusing_A: t.minimumFusing_A,
    terms: t.share.map((share, k) => ({ share, tau_s: t.tau_s[k] })),
  };

function fuseJson({ fuse, times, holds }: FuseSheet): object {
  const { name, rating_A, poles, melt, clearing } = fuse;
  return { part: name, rating_A, poles, melt: terms(melt), clearing: terms(clearing), times, holds };
}

/** `startgap fuse FILE [NAME]`: the fitted curve, and how long it holds the starts of this cabinet. */
export async function fuseCommand(
  file: string,
  name: string | undefined,
  flags: FuseFlags,
  io: Io,
): Promise<number> {
  const ready = await prepare({ file, flags }, io);
  if (typeof ready === "number") return ready;
  const { cabinet, options } = ready;
  const fuses = cabinet.circuit.parts.filter((part) => part.is === "fuse");
  const chosen = named(fuses, "fuse", name);
  if ("issues" in chosen) return refuse(chosen.issues, io, file);
  const result = watched(io, "Checking", (onProgress) => check(cabinet, { ...options, onProgress }));
  if (isFailure(result)) return giveUp(result, io);
  const sheets = chosen.parts.map((fuse) => fuseSheet(fuse, result));
  io.out.write(
    flags.json
      ? jsonText({ startgap: "fuse 1", title: cabinet.title, fuses: sheets.map(fuseJson) })
      : lines(sheets.flatMap((s, i) => [...(i === 0 ? [] : [""]), ...fuseText(s, io.out)])),
  );
  return exit.passed;
}
