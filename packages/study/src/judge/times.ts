import { RECEPTACLE_TIMES } from "../limits.ts";
import type { Telling } from "../telling.ts";
import { firstLive } from "./live.ts";
import { timeBelow_s } from "./point.ts";

/** Total time below each step of the receptacle limit, in its order. */
export type BelowTimes = readonly number[];

export function belowTimes(told: Telling): Map<string, BelowTimes> {
  const { recording, plant } = told;
  const times = new Map<string, BelowTimes>();
  plant.layout.circuit.parts.forEach((p, i) => {
    if (p.is !== "load") return;
    const channel = recording.channels.voltage + i;
    const from = firstLive(recording, i);
    times.set(
      p.name,
      RECEPTACLE_TIMES.map(({ percent }) =>
        timeBelow_s(recording, channel, (percent / 100) * p.nominal_V, from),
      ),
    );
  });
  return times;
}
