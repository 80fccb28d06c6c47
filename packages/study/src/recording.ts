import { type CircuitPlant, currentInto, type Mode, magnitude, type PartParameters } from "@startgap/circuit";
import type { Recorder } from "@startgap/ode";

/** Which number of a recorded row is what. Row 0 is the time; states come next, then what was solved. */
export interface Channels {
  readonly width: number;
  /** First state. */
  readonly state: number;
  /** By part: rms voltage where the part's voltage is told, and current into it. */
  readonly voltage: number;
  readonly current: number;
  /** By part: coil voltage, -1 for a part without a coil. */
  readonly coil: readonly number[];
  /** By part: 1 while connected to the supply. */
  readonly live: number;
}

export function channelsOf(plant: CircuitPlant): Channels {
  const { circuit, states } = plant.layout;
  const parts = circuit.parts.length;
  let width = 1 + states + 3 * parts;
  const coil = circuit.parts.map((p) => (coilOf(p) === null ? -1 : width++));
  return {
    width,
    state: 1,
    voltage: 1 + states,
    current: 1 + states + parts,
    live: 1 + states + 2 * parts,
    coil,
  };
}

export const coilOf = (p: PartParameters) => (p.is === "contactor" ? p.coil : null);

/** Rows of numbers in the order of time, with the mode that held from each row on. */
export interface Recording extends Recorder<Mode> {
  readonly channels: Channels;
  readonly rows: number;
  /** Number `channel` of row `row`. */
  at(row: number, channel: number): number;
  /** The mode in force at a row. */
  modeAt(row: number): Mode;
  /**
   * Appends another recording's row under a new time, its numbers changed by `change`, which is handed the row as
   * it was too; returns what that does.
   */
  copy(
    source: Recording,
    row: number,
    time_s: number,
    change: (row: Float64Array, before: Float64Array) => boolean,
  ): boolean;
  /** Its numbers: hand them to `branch` for reuse once this recording is no longer read. */
  readonly buffer: Float64Array;
  /** A new recording that begins with this one's rows before `until_s`: whoever goes on from there records it. */
  branch(until_s: number, buffer?: Float64Array): Recording;
}

export function recordingOf(plant: CircuitPlant): Recording {
  return recording(plant, channelsOf(plant), new Float64Array(16 * 1024), 0, []);
}

interface Span {
  readonly row: number;
  readonly mode: Mode;
}

function recording(
  plant: CircuitPlant,
  channels: Channels,
  given: Float64Array,
  givenRows: number,
  givenSpans: readonly Span[],
): Recording {
  const { width } = channels;
  const spans = givenSpans.slice();
  const write = rowWriter(plant, channels);
  let data = given;
  let rows = givenRows;
  const makeRoom = (mode: Mode): void => {
    if ((rows + 1) * width > data.length) data = grown(data, 2 * Math.max(data.length, width));
    if (spans.length === 0 || spans[spans.length - 1].mode !== mode) spans.push({ row: rows, mode });
  };
  return {
    channels,
    interior: true,
    get rows() {
      return rows;
    },
    sample(t, y, mode) {
      makeRoom(mode);
      write(data, rows * width, t, y, mode);
      rows++;
    },
    copy(source, row, time_s, change) {
      makeRoom(source.modeAt(row));
      const out = data.subarray(rows * width, (rows + 1) * width);
      const before = source.buffer.subarray(row * width, (row + 1) * width);
      out.set(before);
      out[0] = time_s;
      rows++;
      return change(out, before);
    },
    at: (row, channel) => data[row * width + channel],
    modeAt(row) {
      let found = spans[0].mode;
      for (const span of spans) if (span.row <= row) found = span.mode;
      return found;
    },
    get buffer() {
      return data;
    },
    branch(until_s, buffer) {
      let kept = rows;
      while (kept > 0 && data[(kept - 1) * width] >= until_s) kept--;
      const mine = data.subarray(0, kept * width);
      const copy =
        buffer !== undefined && buffer.length >= mine.length
          ? buffer
          : grown(mine, mine.length + 256 * width);
      copy.set(mine);
      return recording(
        plant,
        channels,
        copy,
        kept,
        spans.filter((span) => span.row < kept),
      );
    },
  };
}

function grown(data: Float64Array, length: number): Float64Array {
  const larger = new Float64Array(length);
  larger.set(data);
  return larger;
}

/** Writes one row: the time, the states, and what the network gives at them. */
function rowWriter(
  plant: CircuitPlant,
  channels: Channels,
): (data: Float64Array, base: number, t: number, y: readonly number[], mode: Mode) => void {
  const { told, circuit, places } = plant.layout;
  const parts = circuit.parts.length;
  const coils = circuit.parts.flatMap((p, i) => {
    const coil = coilOf(p);
    return coil === null ? [] : [{ channel: channels.coil[i], node: places[i].nodeOf(coil.fedBy, coil.leg) }];
  });
  let lit: Mode | null = null;
  const live = new Float64Array(parts);
  return (data, base, t, y, mode) => {
    const walk = plant.solve(y, mode);
    if (lit !== mode) {
      for (let i = 0; i < parts; i++) live[i] = plant.isLive(i, mode) ? 1 : 0;
      lit = mode;
    }
    data[base] = t;
    for (let i = 0; i < y.length; i++) data[base + channels.state + i] = y[i];
    for (let i = 0; i < parts; i++) {
      data[base + channels.voltage + i] = magnitude(walk, told[i]);
      data[base + channels.current + i] = currentInto(walk, i);
      data[base + channels.live + i] = live[i];
    }
    for (const { channel, node } of coils) data[base + channel] = magnitude(walk, node);
  };
}
