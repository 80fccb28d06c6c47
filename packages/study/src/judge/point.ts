import type { LoadParameters } from "@startgap/circuit";
import type { Recording } from "../recording.ts";
import type { PointResult } from "../results.ts";
import type { Telling } from "../telling.ts";
import { firstLive } from "./live.ts";

/** A point's sags, from the moment it is first switched on; what goes dead after that counts as below. */
export function pointResult(told: Telling, part: number, p: LoadParameters): PointResult {
  const { recording } = told;
  const channel = recording.channels.voltage + part;
  const from = firstLive(recording, part);
  let lowest = Number.POSITIVE_INFINITY;
  for (let row = from; row < recording.rows; row++) lowest = Math.min(lowest, recording.at(row, channel));
  return {
    part: p.name,
    nominal_V: p.nominal_V,
    lowestVoltage_V: from < recording.rows ? lowest : 0,
    below90_s: timeBelow_s(recording, channel, 0.9 * p.nominal_V, from),
    finalVoltage_V: recording.at(recording.rows - 1, channel),
  };
}

/** Total time a recorded quantity spends below a level, straight lines between samples. */
export function timeBelow_s(recording: Recording, channel: number, level: number, from = 0): number {
  let total = 0;
  for (let row = from + 1; row < recording.rows; row++) {
    const dt = recording.at(row, 0) - recording.at(row - 1, 0);
    const a = level - recording.at(row - 1, channel);
    const b = level - recording.at(row, channel);
    if (a > 0 && b > 0) total += dt;
    else if (a > 0 || b > 0) total += (dt * Math.max(a, b)) / (Math.abs(a) + Math.abs(b));
  }
  return total;
}
