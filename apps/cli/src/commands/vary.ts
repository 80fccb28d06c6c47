import type { Issue } from "@startgap/cabinet";
import { isFailure, type VaryOptions, vary } from "@startgap/study";
import type { Io } from "../io.ts";
import { jsonText } from "../json.ts";
import { giveUp, prepare, refuse } from "../prepare.ts";
import { watched } from "../progress.ts";
import type { SettingFlags } from "../settings.ts";
import { exit } from "../status.ts";
import { lines } from "../text/plain.ts";
import { varyText } from "../text/vary.ts";

export interface VaryFlags extends SettingFlags {
  readonly json?: boolean;
  readonly draws?: string;
  readonly seed?: string;
}

/** A typed whole number, or what is wrong with it. */
function wholeOf(
  flag: string,
  text: string | undefined,
  low: number,
  high: number,
): number | Issue | undefined {
  if (text === undefined) return undefined;
  const value = /^\d{1,10}$/.test(text.trim()) ? Number(text) : Number.NaN;
  if (value >= low && value <= high) return value;
  const expected = `a whole number from ${low} to ${high}`;
  return { path: `--${flag}`, expected, received: JSON.stringify(text.slice(0, 80)) };
}

const noRange: Issue = {
  path: "",
  expected: 'a file in which something is only known roughly, as "95 A +- 10 %" or "3 s .. 5 s"',
  received: "a file without a range",
};

/** `startgap vary FILE`: every quantity that the file gives as a range, drawn at once. */
export async function varyCommand(file: string, flags: VaryFlags, io: Io): Promise<number> {
  const draws = wholeOf("draws", flags.draws, 2, 100_000);
  const seed = wholeOf("seed", flags.seed, 0, 4_294_967_295);
  const issues = [draws, seed].filter((one) => typeof one === "object");
  const ready = await prepare({ file, flags, issues }, io);
  if (typeof ready === "number") return ready;
  const asked = { draws, seed } as Pick<VaryOptions, "draws" | "seed">;
  const report = watched(io, "Drawing", (onProgress) =>
    vary(ready.cabinet, { ...ready.options, ...asked, onProgress }),
  );
  if (report === null) return refuse([noRange], io, file);
  if (isFailure(report)) return giveUp(report, io);
  io.out.write(flags.json ? jsonText(report) : lines(varyText(ready.cabinet, report, io.out)));
  return report.passes < report.draws - report.refused ? exit.failed : exit.passed;
}
