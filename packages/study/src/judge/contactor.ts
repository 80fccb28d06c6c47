import type { ContactorMode, ContactorParameters } from "@startgap/circuit";
import type { ContactorResult } from "../results.ts";
import type { Telling } from "../telling.ts";

export function contactorResult(told: Telling, part: number, p: ContactorParameters): ContactorResult {
  const { recording } = told;
  const channel = recording.channels.coil[part];
  let lowest = Number.POSITIVE_INFINITY;
  if (channel >= 0) {
    for (let row = 0; row < recording.rows; row++) lowest = Math.min(lowest, recording.at(row, channel));
  }
  const mode = recording.modeAt(recording.rows - 1)[part] as ContactorMode;
  return { part: p.name, dropOuts: mode.dropOuts, lowestCoil_V: channel >= 0 ? lowest : null };
}
