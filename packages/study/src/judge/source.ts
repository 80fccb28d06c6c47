import type { Event } from "@startgap/ode";
import { RECOVERED_percent } from "../limits.ts";
import type { Recording } from "../recording.ts";
import type { SourceResult } from "../results.ts";
import type { Telling } from "../telling.ts";

/** What a generator's field or an inverter's current does at its limit, by the names of events. */
const limits = {
  generator: { begins: ["field reaches its ceiling"], ends: ["field leaves its ceiling"] },
  inverter: {
    begins: ["reaches its current limit", "surge time is up"],
    ends: ["leaves its current limit", "is back within its rating", "shuts down"],
  },
} as const;

/** How the supply came through, when it is a generator or an inverter; null for any other. */
export function sourceResult(told: Telling): SourceResult | null {
  const { recording, plant, events, duration_s } = told;
  const [p] = plant.layout.circuit.parts;
  if (p.is !== "supply" || p.source === undefined) return null;
  const { begins, ends } = limits[p.source.is];
  const named = (what: readonly string[]) => what.map((one) => `${p.name}: ${one}`);
  const [lowest, highest] = extremes(recording, recording.channels.voltage);
  const stopped = events.find(({ name }) => name === `${p.name}: shuts down`);
  return {
    part: p.name,
    is: p.source.is,
    nominal_V: p.voltage_V,
    lowestVoltage_V: lowest,
    highestVoltage_V: highest,
    recovery_s: recovery_s(recording, recording.channels.voltage, (RECOVERED_percent / 100) * p.voltage_V),
    peakCurrent_A: extremes(recording, recording.channels.current)[1],
    atLimit_s: timeBetween_s(events, named(begins), named(ends), duration_s),
    shutDown_s: stopped?.t ?? null,
  };
}

function extremes(recording: Recording, channel: number): readonly [lowest: number, highest: number] {
  let [lowest, highest] = [Number.POSITIVE_INFINITY, 0];
  for (let row = 0; row < recording.rows; row++) {
    lowest = Math.min(lowest, recording.at(row, channel));
    highest = Math.max(highest, recording.at(row, channel));
  }
  return [lowest, highest];
}

/** The longest time without a break below a level, straight lines between samples; null when it ends there. */
export function recovery_s(recording: Recording, channel: number, level: number): number | null {
  let longest = 0;
  let since: number | null = recording.at(0, channel) < level ? recording.at(0, 0) : null;
  for (let row = 1; row < recording.rows; row++) {
    const [a, b] = [recording.at(row - 1, channel) - level, recording.at(row, channel) - level];
    if (a < 0 === b < 0) continue;
    const [t, next] = [recording.at(row - 1, 0), recording.at(row, 0)];
    const crossing = t + ((next - t) * a) / (a - b);
    if (b < 0) since = crossing;
    else {
      longest = Math.max(longest, crossing - (since ?? crossing));
      since = null;
    }
  }
  return since === null ? longest : null;
}

/** Total time from events that begin something to events that end it, or to the end of the story. */
function timeBetween_s(
  events: readonly Event[],
  begins: readonly string[],
  ends: readonly string[],
  until_s: number,
): number {
  let total = 0;
  let since: number | null = null;
  for (const { name, t } of events) {
    if (begins.includes(name)) since ??= t;
    if (!ends.includes(name) || since === null) continue;
    total += t - since;
    since = null;
  }
  return since === null ? total : total + Math.max(0, until_s - since);
}
