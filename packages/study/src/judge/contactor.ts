import type { ContactorMode, ContactorParameters } from "@startgap/circuit";
import type { ContactorResult } from "../results.ts";
import type { Telling } from "../telling.ts";

/** The coil is read while what feeds it is live: a coil without voltage behind an open relay has not sagged. */
export function contactorResult(told: Telling, part: number, p: ContactorParameters): ContactorResult {
  const { recording, plant, events } = told;
  const { channels } = recording;
  const { parts } = plant.layout.circuit;
  const channel = channels.coil[part];
  const live = channels.live + parts.findIndex((one) => one.name === p.coil?.fedBy);
  let lowest = Number.POSITIVE_INFINITY;
  for (let row = 0; channel >= 0 && row < recording.rows; row++) {
    if (recording.at(row, live) !== 0) lowest = Math.min(lowest, recording.at(row, channel));
  }
  const mode = recording.modeAt(recording.rows - 1)[part] as ContactorMode;
  const closing = [`${p.name}: pulls in`, `${p.name}: closes`];
  const closed = events.find(({ name }) => closing.includes(name));
  return {
    part: p.name,
    dropOuts: mode.dropOuts,
    lowestCoil_V: lowest < Number.POSITIVE_INFINITY ? lowest : null,
    closed_s: p.coil === null && p.closedBy === undefined ? 0 : (closed?.t ?? null),
  };
}
