import type { CircuitPlant, Mode } from "@startgap/circuit";
import type { Event } from "@startgap/ode";
import { channelsOf, type Recording } from "../src/recording.ts";
import type { Telling } from "../src/telling.ts";

const refuse = (): never => {
  throw new RangeError("an invented recording is only read");
};

/** A recording of given rows. `modes` says from which row on which mode holds. */
export function recordingWith(
  channels: Recording["channels"],
  rows: readonly (readonly number[])[],
  modes: readonly (readonly [row: number, mode: Mode])[] = [],
): Recording {
  return {
    channels,
    interior: true,
    rows: rows.length,
    at: (row, channel) => rows[row]?.[channel] ?? 0,
    modeAt: (row) => modes.filter(([from]) => from <= row).at(-1)?.[1] ?? [],
    buffer: new Float64Array(0),
    sample: refuse,
    copy: refuse,
    branch: refuse,
  };
}

/** A recording of one quantity over time: channel 0 is the time, channel 1 the quantity. */
export const oneQuantity = (rows: readonly (readonly [t: number, value: number])[]): Recording =>
  recordingWith({ width: 2, state: 1, voltage: 1, current: 1, live: 1, coil: [] }, rows);

/** One invented row of a story: what is not stated is 0, and everything is live. */
export interface Moment {
  readonly t: number;
  /** By part. */
  readonly volts?: Readonly<Record<string, number>>;
  readonly amps?: Readonly<Record<string, number>>;
  readonly dead?: readonly string[];
  readonly coil_V?: Readonly<Record<string, number>>;
  /** By number of state. */
  readonly states?: readonly number[];
}

/** A story of invented rows on a real layout. */
export function tellingOf(
  plant: CircuitPlant,
  moments: readonly Moment[],
  more: { readonly events?: readonly Event[]; readonly modes?: readonly (readonly [number, Mode])[] } = {},
): Telling {
  const channels = channelsOf(plant);
  const { parts } = plant.layout.circuit;
  const rows = moments.map((moment) => {
    const row = new Array<number>(channels.width).fill(0);
    row[0] = moment.t;
    moment.states?.forEach((value, i) => {
      row[channels.state + i] = value;
    });
    parts.forEach(({ name }, i) => {
      row[channels.voltage + i] = moment.volts?.[name] ?? 0;
      row[channels.current + i] = moment.amps?.[name] ?? 0;
      row[channels.live + i] = moment.dead?.includes(name) ? 0 : 1;
      if (channels.coil[i] >= 0) row[channels.coil[i]] = moment.coil_V?.[name] ?? 0;
    });
    return row;
  });
  const start = plant.start().mode;
  const duration_s = moments[moments.length - 1].t;
  return {
    plant,
    delay_s: 0,
    duration_s,
    recording: recordingWith(channels, rows, more.modes ?? [[0, start]]),
    events: more.events ?? [],
    outcome: { ending: "finished", t: duration_s, says: "Reached the end." },
  };
}
