import type { Issue } from "@startgap/cabinet";
import { check, isFailure } from "@startgap/study";
import { draw, figureNames, isFigureName } from "../figures/draw.ts";
import type { Io } from "../io.ts";
import { giveUp, prepare, refuse } from "../prepare.ts";
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
  const wanted = [{ flag: "--output", path: output, orStdout: true, ending: ".svg" }];
  const issues = isFigureName(figure) ? [] : [unknownFigure(figure)];
  const ready = await prepare({ file, flags, wanted, issues }, io);
  if (typeof ready === "number") return ready;
  const { cabinet, options } = ready;
  const result = watched(io, "Checking", (onProgress) => check(cabinet, { ...options, onProgress }));
  if (isFailure(result)) return giveUp(result, io);
  const drawn = draw(figure, await io.document(), { ...ready, check: result, part: flags.part });
  if ("issues" in drawn) return refuse(drawn.issues, io, file);
  if (output === "-") {
    io.out.write(drawn.svg);
    return exit.passed;
  }
  io.writeAll([{ path: output, text: drawn.svg }]);
  io.out.write(`Wrote ${output}\n`);
  return exit.passed;
}
