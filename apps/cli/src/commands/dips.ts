import type { Issue } from "@startgap/cabinet";
import { dips, isFailure, oneDip } from "@startgap/study";
import { type DipFlags, readDipSettings } from "../dipSettings.ts";
import type { Io } from "../io.ts";
import { jsonText } from "../json.ts";
import { giveUp, type Prepared, prepare } from "../prepare.ts";
import { watched } from "../progress.ts";
import type { SettingFlags } from "../settings.ts";
import { exit } from "../status.ts";
import { dipMapText, noDipsText, oneDipText } from "../text/dips.ts";
import { lines } from "../text/plain.ts";

export interface DipsFlags extends SettingFlags, DipFlags {
  readonly output?: string;
  readonly json?: boolean;
}

const drawsOne = (flags: DipsFlags): Issue[] =>
  flags.output === undefined || (flags.left === undefined && flags.length === undefined)
    ? []
    : [
        {
          path: "--output",
          expected: "a picture of the map, without --left and --length",
          received: "one dip",
        },
      ];

/** `startgap dips FILE`: what a dip of every depth and length lets go of, and how everything comes back. */
export async function dipsCommand(file: string, flags: DipsFlags, io: Io): Promise<number> {
  const { settings, issues } = readDipSettings(flags);
  const wanted = [{ flag: "--output", path: flags.output, ending: ".svg" }];
  const ready = await prepare({ file, flags, wanted, issues: [...issues, ...drawsOne(flags)] }, io);
  if (typeof ready === "number") return ready;
  return settings.dip === undefined ? mapped(ready, flags, io) : tried(ready, settings.dip, flags, io);
}

/** One dip by itself. */
function tried(
  { cabinet, options }: Prepared,
  dip: { readonly left: number; readonly length_s: number },
  flags: DipsFlags,
  io: Io,
): number {
  const told = oneDip(cabinet, dip, options);
  if (isFailure(told)) return giveUp(told, io);
  if ("skipped" in told) {
    io.out.write(flags.json ? jsonText(told) : lines(noDipsText(told, io.out)));
    return exit.passed;
  }
  const { title } = cabinet;
  io.out.write(
    flags.json
      ? jsonText({ startgap: "dips 1", title, dip: told })
      : lines(oneDipText(cabinet, told, io.out)),
  );
  return told.verdict === "fail" ? exit.failed : exit.passed;
}

/** The map over depth and length. */
async function mapped({ cabinet, options }: Prepared, flags: DipsFlags, io: Io): Promise<number> {
  const map = watched(io, "Trying dips", (onProgress) => dips(cabinet, { ...options, onProgress }));
  if (isFailure(map)) return giveUp(map, io);
  if ("skipped" in map) {
    const undrawn = flags.output === undefined ? [] : ["Nothing was drawn."];
    io.out.write(flags.json ? jsonText(map) : lines([...noDipsText(map, io.out), ...undrawn]));
    return exit.passed;
  }
  if (flags.output !== undefined) {
    const { dipMap, svgText } = await import("@startgap/figures");
    io.writeAll([{ path: flags.output, text: svgText(dipMap(await io.document(), map)) }]);
  }
  const wrote = flags.output === undefined ? [] : [`Wrote ${flags.output}`];
  io.out.write(flags.json ? jsonText(map) : lines([...dipMapText(cabinet, map, io.out), ...wrote]));
  return map.outcomes.flat().some(({ verdict }) => verdict === "fail") ? exit.failed : exit.passed;
}
