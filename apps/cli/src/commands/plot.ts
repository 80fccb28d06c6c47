import type { Issue } from "@startgap/cabinet";
import { check } from "@startgap/study";
import { draw, figureNames, isFigureName } from "../drawing.ts";
import type { Io } from "../io.ts";
import { giveUp, prepare } from "../prepare.ts";
import { watched } from "../progress.ts";
import type { SettingFlags } from "../settings.ts";
import { exit } from "../status.ts";

export interface PlotFlags extends SettingFlags {
  readonly output: string;
  readonly figure: string;
  readonly part?: string;
}

const unknownFigure = (name: string): Issue => ({
  path: "--figure",
  expected: `one of ${figureNames.join(", ")}`,
  received: JSON.stringify(name.slice(0, 80)),
});

/** `startgap plot FILE -o OUT.svg`: one picture. Its exit status tells of the picture, not of the findings. */
export async function plotCommand(file: string, flags: PlotFlags, io: Io): Promise<number> {
  const { figure, output } = flags;
  const wanted = [{ flag: "--output", path: output, orStdout: true }];
  const issues = isFigureName(figure) ? [] : [unknownFigure(figure)];
  const ready = await prepare({ file, flags, wanted, issues }, io);
  if (typeof ready === "number") return ready;
  const { cabinet, options } = ready;
  const result = watched(io, "Checking", (onProgress) => check(cabinet, { ...options, onProgress }));
  if ("failed" in result) return giveUp(result, io);
  const text = draw(figure, await io.document(), { ...ready, check: result, part: flags.part });
  if (output === "-") {
    io.out.write(text);
    return exit.passed;
  }
  io.writeAll([{ path: output, text }]);
  io.out.write(`Wrote ${output}\n`);
  return exit.passed;
}
