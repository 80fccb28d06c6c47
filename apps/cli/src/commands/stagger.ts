import { type DelayMap, delayMap, isFailure } from "@startgap/study";
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

/** The map of a cabinet with one motor: empty, so that whoever reads columns finds them all. */
const nothingToDelay: DelayMap = {
  delay_s: [],
  motors: [],
  points: [],
  fuses: [],
  contactors: [],
  chatters: [],
  passes: [],
  advice: {
    recommended_s: null,
    shortest_s: null,
    knee_s: null,
    reason: "There is one motor: nothing to hold back.",
  },
};

/** `startgap stagger FILE`: what every delay does, and the shortest that is safe to set. */
export async function staggerCommand(file: string, flags: StaggerFlags, io: Io): Promise<number> {
  const ready = await prepare({ file, flags }, io);
  if (typeof ready === "number") return ready;
  const map = watched(io, "Trying delays", (onProgress) =>
    delayMap(ready.cabinet, { ...ready.options, onProgress }),
  );
  if (map !== null && isFailure(map)) return giveUp(map, io);
  const told = map ?? nothingToDelay;
  const { title } = ready.cabinet;
  const { advice, ...columns } = told;
  io.out.write(
    flags.json
      ? jsonText({ startgap: "stagger 1", title, ...columns, delay: advice })
      : lines(delayMapText(ready.cabinet, told, io.out)),
  );
  return map === null || map.passes.includes(true) ? exit.passed : exit.failed;
}
