import { delayMap } from "@startgap/study";
import type { Io } from "../io.ts";
import { jsonText } from "../json.ts";
import { giveUp, prepare } from "../prepare.ts";
import { watched } from "../progress.ts";
import type { SettingFlags } from "../settings.ts";
import { exit } from "../status.ts";
import { delayMapText } from "../text/delayMap.ts";
import { lines } from "../text/plain.ts";

export interface StaggerFlags extends SettingFlags {
  readonly json?: boolean;
}

/** `startgap stagger FILE`: what every delay does, and the shortest that is safe to set. */
export async function staggerCommand(file: string, flags: StaggerFlags, io: Io): Promise<number> {
  const ready = await prepare({ file, flags }, io);
  if (typeof ready === "number") return ready;
  const map = watched(io, "Trying delays", (onProgress) =>
    delayMap(ready.cabinet, { ...ready.options, onProgress }),
  );
  if ("failed" in map) return giveUp(map, io);
  const { advice, ...columns } = map;
  const { title } = ready.cabinet;
  io.out.write(
    flags.json
      ? jsonText({ startgap: "stagger 1", title, ...columns, delay: advice })
      : lines(delayMapText(ready.cabinet, map, io.out)),
  );
  return map.passes.some((pass) => pass) ? exit.passed : exit.failed;
}
