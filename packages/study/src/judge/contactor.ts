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
  const again = closesAgain(told, part, closing);
  return {
    part: p.name,
    dropOuts: mode.dropOuts,
    lowestCoil_V: lowest < Number.POSITIVE_INFINITY ? lowest : null,
    closed_s: p.coil === null && p.closedBy === undefined ? 0 : (closed?.t ?? null),
    ...(again === null ? {} : { closesAgain: again }),
  };
}

/** How long after a closing its current is looked for, s: longer than any bounce, shorter than a run-up. */
const MAKES_WITHIN_s = 0.05;

/** What the contacts met when they closed again; null when they never did. */
function closesAgain(
  { events, recording }: Telling,
  part: number,
  closing: readonly string[],
): ContactorResult["closesAgain"] | null {
  const times = events.filter(({ name }) => closing.includes(name)).map(({ t }) => t);
  const again = times.slice(1);
  if (again.length === 0) return null;
  let most_A = 0;
  let next = 0;
  for (let row = 0; row < recording.rows; row++) {
    const t = recording.at(row, 0);
    while (next + 1 < again.length && again[next + 1] <= t) next++;
    if (t >= again[next] && t <= again[next] + MAKES_WITHIN_s)
      most_A = Math.max(most_A, recording.at(row, recording.channels.current + part));
  }
  const inOneSecond = Math.max(...times.map((t, i) => times.slice(i).filter((one) => one <= t + 1).length));
  return { times: again.length, inOneSecond, most_A };
}
