import { meltFraction } from "@startgap/circuit";
import type { CaseName, Column, Story, StoryEvent } from "./results.ts";
import type { Telling } from "./telling.ts";

const RPM = 30 / Math.PI;

/** A told story with its traces as columns, for drawing and for files. */
export function storyOf(told: Telling, name: CaseName): Story {
  const { recording } = told;
  const time_s = new Float64Array(recording.rows);
  for (let row = 0; row < recording.rows; row++) time_s[row] = recording.at(row, 0);
  return {
    case: name,
    delay_s: Number.isFinite(told.delay_s) ? told.delay_s : 0,
    duration_s: told.duration_s,
    traces: { time_s, columns: columnsOf(told) },
    events: told.events.map(eventOf),
  };
}

function columnsOf(told: Telling): Column[] {
  const { recording, plant } = told;
  const { channels } = recording;
  const { circuit, nominal_V, places, told: nodes } = plant.layout;
  const fill = (value: (row: number) => number): Float64Array => {
    const values = new Float64Array(recording.rows);
    for (let row = 0; row < values.length; row++) values[row] = value(row);
    return values;
  };
  const read = (channel: number, scale = 1): Float64Array =>
    fill((row) => scale * recording.at(row, channel));
  const columns: Column[] = [];
  circuit.parts.forEach((p, i) => {
    const part = p.name;
    const nominal = p.is === "load" ? p.nominal_V : nominal_V[nodes[i]];
    columns.push({ quantity: "voltage", part, unit: "V", nominal, values: read(channels.voltage + i) });
    columns.push({ quantity: "current", part, unit: "A", nominal: null, values: read(channels.current + i) });
    const state = channels.state + places[i].state;
    if (p.is === "motor") {
      columns.push({ quantity: "speed", part, unit: "rpm", nominal: null, values: read(state, RPM) });
    }
    if (p.is === "fuse" && p.melt !== null) {
      const terms = p.melt.share.map((_, k) => state + k);
      const values = fill((row) =>
        meltFraction(
          terms.map((channel) => recording.at(row, channel)),
          0,
          terms.length,
        ),
      );
      columns.push({ quantity: "melt fraction", part, unit: "", nominal: null, values });
    }
    if (channels.coil[i] >= 0) {
      columns.push({
        quantity: "coil voltage",
        part,
        unit: "V",
        nominal: null,
        values: read(channels.coil[i]),
      });
    }
  });
  return columns;
}

/** Event names are "part: what"; what never holds a colon. */
export function eventOf(event: { readonly name: string; readonly t: number }): StoryEvent {
  const cut = event.name.lastIndexOf(": ");
  return { at_s: event.t, part: event.name.slice(0, cut), what: event.name.slice(cut + 2) };
}
