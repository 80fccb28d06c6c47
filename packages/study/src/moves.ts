import type { CircuitPlant, Mode } from "@startgap/circuit";
import type { Memories } from "./memories.ts";
import type { Hold, Stagger } from "./stagger.ts";
import type { Telling } from "./telling.ts";

/** A piece of a told story between starts, and by how much it moves. */
export interface Move {
  readonly from_s: number;
  readonly until_s: number;
  readonly by_s: number;
  /** When the next piece begins in the new story; Infinity for the last. */
  readonly next_s: number;
}

/** A further start of a told story. */
interface Start {
  readonly name: string;
  readonly t: number;
  /** By how much it moves for every second of the second one's. */
  readonly share: number;
}

/** Time in which anything that is not yet at rest would show it, s. */
const LONG_s = 1e4;

/**
 * The pieces in which a told story moves when its second motor starts later: one a start.
 *
 * @param left_s  when the told story left the trunk
 * @param delay_s when the new one does
 * @returns null where a piece is not at rest as the next one begins, or does not come later
 */
export function movesOf(
  told: Telling,
  stagger: Stagger,
  left_s: number,
  delay_s: number,
  memories: Memories,
  tolerance: number,
): readonly Move[] | null {
  const by_s = delay_s - left_s;
  const further = furtherStarts(told, stagger, left_s);
  if (further === null || (by_s < 0 && further.length > 0)) return null;
  const names = new Set(further.map(({ name }) => name));
  if (further.some(({ t }) => !isAtRest(told, t, names, memories, tolerance))) return null;
  const starts = [{ t: left_s, share: 1 }, ...further];
  return starts.map(({ t, share }, i) => {
    const next = starts[i + 1];
    return {
      from_s: t,
      until_s: next?.t ?? Number.POSITIVE_INFINITY,
      by_s: share * by_s,
      next_s: next === undefined ? Number.POSITIVE_INFINITY : next.t + next.share * by_s,
    };
  });
}

/** Starts after the second one, in their order; null when one does not happen just once. */
function furtherStarts(told: Telling, stagger: Stagger, left_s: number): readonly Start[] | null {
  const expected = stagger.byRelay ? stagger.holds.filter(waits).map(byRelay) : byHand(stagger);
  const starts: Start[] = [];
  for (const { name, share } of expected) {
    const times = told.events.filter((event) => event.name === name && event.t >= left_s);
    if (times.length > 1) return null;
    if (times.length === 0 || share === 1) continue;
    starts.push({ name, share, t: times[0].t });
  }
  return starts.sort((a, b) => a.t - b.t);
}

const waits = ({ leads, share }: Hold): boolean => !leads && share > 0;

const byRelay = ({ name, share }: Hold) => ({ name: `${name}: closes`, share });

const byHand = ({ motors }: Stagger) =>
  motors.slice(1).map((name, i) => ({ name: `${name}: is connected`, share: i + 1 }));

/** Nothing moves any more but what remembers, and nothing is timed but the further starts. */
function isAtRest(
  { plant, recording, duration_s }: Telling,
  at_s: number,
  starts: ReadonlySet<string>,
  { channels }: Memories,
  tolerance: number,
): boolean {
  let row = 0;
  while (recording.at(row, 0) < at_s) row++;
  const { state } = recording.channels;
  const y = Array.from({ length: plant.layout.states }, (_, i) => recording.at(row, state + i));
  const mode = recording.modeAt(row);
  if (plant.scheduled(mode).some(({ name, t }) => !starts.has(name) && t <= duration_s)) return false;
  const end = endOf(plant, at_s, y, mode, tolerance);
  const remembers = new Set(channels.map((channel) => channel - state));
  return (
    end?.every(
      (value, i) => remembers.has(i) || Math.abs(value - y[i]) <= tolerance * (1 + Math.abs(y[i])),
    ) ?? false
  );
}

/** Where a plant that has come to rest will stand for good; null when it has not. */
function endOf(
  plant: CircuitPlant,
  t: number,
  y: readonly number[],
  mode: Mode,
  tolerance: number,
): readonly number[] | null {
  const flow = plant.rest?.(t, y, mode, tolerance) ?? null;
  if (flow === null) return null;
  const end = y.slice();
  flow(t + LONG_s, end);
  return end;
}
