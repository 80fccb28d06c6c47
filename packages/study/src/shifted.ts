import type { Mode } from "@startgap/circuit";
import type { Standing } from "@startgap/ode";
import { carry, isSteady, type Memories, memoriesOf, stand } from "./memories.ts";
import { type Move, movesOf } from "./moves.ts";
import type { Recording } from "./recording.ts";
import type { Stagger } from "./stagger.ts";
import type { Telling, Trunk } from "./telling.ts";

/** A told branch that others may be told from, and where it left the trunk. */
export interface Base {
  readonly told: Telling;
  readonly from: Standing<Mode>;
}

/**
 * The story of later starts, without running it, where it is an earlier one moved in time.
 *
 * Once what runs has settled, a later start meets the same speeds and contacts; only what remembers time, heat in
 * fuses and pressure in receivers, stands elsewhere. It is linear in its drive and the drive is the same, so
 *
 *     x(t) = x_base(t - shift) + (x(start) - x_base(start_base)) e^(-(t - start)/tau)
 *
 * exactly, tau infinite for a pressure. Every start moves by its own shift; between the pieces all stands still but
 * what remembers, which goes on in closed form.
 *
 * @returns null where the stories differ by more than the solver's tolerance, time plays another part in them, a
 *   fuse would melt or a pressure pass a threshold: it must be run then
 *
 * Checked by packages/study/test/shifted.test.ts against the same stories run.
 */
export function tellShifted(
  trunk: Trunk,
  stagger: Stagger,
  base: Base,
  delay_s: number,
  tolerance: number,
  buffer?: Float64Array,
): Telling | null {
  const { told } = base;
  const from = trunk.moments.get(delay_s);
  if (from === undefined || told.outcome.ending !== "finished") return null;
  if (told.events.some(({ name }) => name.endsWith(": melts")) || controlsAct(base)) return null;
  const memories = memoriesOf(told, base.from.mode);
  if (!isSame(told, base.from, from, memories, tolerance)) return null;
  const moves = movesOf(told, stagger, base.from.t, delay_s, memories, tolerance);
  if (moves === null) return null;
  const recording = trunk.recording.branch(delay_s, buffer);
  if (!appendAll(recording, told, moves, memories, excessOf(memories, told.recording, base.from, from)))
    return null;
  const events = [
    ...trunk.events.filter((event) => event.t < delay_s),
    ...moves.flatMap(({ from_s, until_s, by_s }) =>
      told.events
        .filter(({ t }) => t >= from_s && t < until_s && t + by_s <= told.duration_s)
        .map(({ name, t }) => ({ name, t: t + by_s })),
    ),
  ];
  return { ...told, delay_s, recording, events };
}

/** True where a pressure switch, a valve or the demand changes in the part that would move. */
function controlsAct({ told, from }: Base): boolean {
  const controls = (told.plant.layout.circuit.controls ?? []).map(({ name }) => `${name}: `);
  return told.events.some(({ name, t }) => t >= from.t && controls.some((one) => name.startsWith(one)));
}

/** The same mode, nothing timed before the story ends, and every state that remembers no time alike to the tolerance. */
function isSame(
  { plant, duration_s, recording }: Telling,
  one: Standing<Mode>,
  other: Standing<Mode>,
  memories: Memories,
  tolerance: number,
): boolean {
  if (one.mode !== other.mode || plant.scheduled(one.mode).some(({ t }) => t <= duration_s)) return false;
  const firstState = recording.channels.state;
  const remembers = new Set(memories.channels.map((channel) => channel - firstState));
  return one.y.every((y, i) => remembers.has(i) || Math.abs(y - other.y[i]) <= tolerance * (1 + Math.abs(y)));
}

function excessOf(
  { channels }: Memories,
  recording: Recording,
  base: Standing<Mode>,
  from: Standing<Mode>,
): readonly number[] {
  const { state } = recording.channels;
  return channels.map((channel) => from.y[channel - state] - base.y[channel - state]);
}

/** Appends every piece as long as the story lasts; false where one cannot be moved. */
function appendAll(
  recording: Recording,
  told: Telling,
  moves: readonly Move[],
  memories: Memories,
  first: readonly number[],
): boolean {
  let excess: readonly number[] | null = first;
  for (const move of moves) {
    if (move.from_s + move.by_s >= told.duration_s) break;
    excess = append(recording, told, move, memories, excess);
    if (excess === null) return false;
  }
  return true;
}

/** Appends one piece, moved and with its excess; returns the next one's excess, or null if that fails. */
function append(
  recording: Recording,
  told: Telling,
  { from_s, until_s, by_s, next_s }: Move,
  memories: Memories,
  excess: readonly number[],
): readonly number[] | null {
  const source = told.recording;
  const start_s = from_s + by_s;
  const end_s = Math.min(next_s, told.duration_s);
  let row = firstAt(source, from_s);
  let last = -1;
  for (; row < source.rows && source.at(row, 0) < until_s; row++) {
    const t = source.at(row, 0) + by_s;
    if (t > end_s) break;
    const goes = recording.copy(source, row, t, (out, before) =>
      carry(out, before, memories, excess, t - start_s),
    );
    if (!goes) return null;
    last = row;
  }
  if (row === source.rows) return excess;
  if (last < 0 || !isSteady(memories, source, last)) return null;
  const rest_s = end_s - (source.at(last, 0) + by_s);
  const goes = recording.copy(source, last, end_s, (out, before) => {
    stand(out, memories, source, last, rest_s);
    return carry(out, before, memories, excess, end_s - start_s);
  });
  if (!goes) return null;
  const end = recording.rows - 1;
  return memories.channels.map((channel) => recording.at(end, channel) - source.at(row, channel));
}

function firstAt(recording: Recording, from_s: number): number {
  let row = 0;
  while (row < recording.rows && recording.at(row, 0) < from_s) row++;
  return row;
}
