import type { CircuitPlant, Mode, Script } from "@startgap/circuit";
import { type Event, type Outcome, run, type Standing } from "@startgap/ode";
import { failureOf, type StudyFailure } from "./failure.ts";
import type { StudyOptions } from "./options.ts";
import { type Recording, recordingOf } from "./recording.ts";
import { lastStart_s, type Stagger, scriptFor } from "./stagger.ts";

/** A story as it was run: everything judges read. */
export interface Telling {
  readonly plant: CircuitPlant;
  readonly delay_s: number;
  readonly duration_s: number;
  readonly recording: Recording;
  readonly events: readonly Event[];
  readonly outcome: Outcome;
}

/** A story to branch from: the first motor alone, with its state at the moments others may start. */
export interface Trunk extends Telling {
  readonly moments: ReadonlyMap<number, Standing<Mode>>;
}

export interface Pace {
  readonly tolerance: number;
  readonly signal?: StudyOptions["signal"];
  /** Events after which a story is given up as chatter; 8000 when silent. */
  readonly maxEvents?: number;
}

/** Shortest story, and what every story runs on after its last start. */
const SHORTEST_STORY_s = 15;
const AFTER_LAST_START_s = 9;
/** Events in one story: enough for a contactor that chatters through all of it. */
const MOST_EVENTS = 8000;

export function durationOf(stagger: Stagger, delay_s: number, asked_s: number | undefined): number {
  if (asked_s !== undefined) return asked_s;
  return Math.max(SHORTEST_STORY_s, lastStart_s(stagger, delay_s) + AFTER_LAST_START_s);
}

/** Runs the trunk: what starts at 0 s, and nothing that is held back. */
export function tellTrunk(
  plant: CircuitPlant,
  stagger: Stagger,
  duration_s: number,
  moments: readonly number[],
  pace: Pace,
): Trunk | StudyFailure {
  const start = plant.start(scriptFor(stagger, Number.POSITIVE_INFINITY));
  return tellMoments(plant, start, recordingOf(plant), duration_s, moments, pace);
}

/**
 * Goes on with a trunk from one of its moments to another a little later, and hands out its state there.
 *
 * @returns a trunk that has this one moment; null where the first one never reached `from_s`
 */
export function tellTrunkOn(
  trunk: Trunk,
  from_s: number,
  to_s: number,
  pace: Pace,
): Trunk | StudyFailure | null {
  const moment = trunk.moments.get(from_s);
  if (moment === undefined || from_s === 0) return null;
  const told = tellMoments(trunk.plant, moment, trunk.recording.branch(from_s), to_s, [to_s], pace);
  if ("failed" in told) return told;
  return { ...told, events: [...trunk.events.filter((event) => event.t < from_s), ...told.events] };
}

/** Runs the first motor alone and keeps its state at the moments. */
function tellMoments(
  plant: CircuitPlant,
  from: Standing<Mode>,
  recording: Recording,
  duration_s: number,
  moments: readonly number[],
  pace: Pace,
): Trunk | StudyFailure {
  const taken = new Map<number, Standing<Mode>>(moments.includes(from.t) ? [[from.t, from]] : []);
  const told = tell(plant, from, recording, Number.POSITIVE_INFINITY, duration_s, pace, {
    snapshots: moments.filter((t) => t > from.t),
    onSnapshot: (t, y, mode) => taken.set(t, { t, y: y.slice(), mode }),
  });
  return "failed" in told ? told : { ...told, moments: taken };
}

/**
 * Goes on from the trunk at the moment of the second start. A moment the trunk did not reach (it ended in
 * chatter) is told from the beginning.
 *
 * The trunk hands its state out before the events of that very moment: the branch has them for itself.
 *
 * Checked by packages/study/test/telling.test.ts against the same stories told from the beginning.
 */
export function tellBranch(
  trunk: Trunk,
  stagger: Stagger,
  delay_s: number,
  duration_s: number,
  pace: Pace,
): Telling | StudyFailure {
  const { plant } = trunk;
  const script = scriptFor(stagger, delay_s);
  const moment = trunk.moments.get(delay_s);
  if (moment === undefined || delay_s === 0) {
    return tellWhole(plant, script, delay_s, duration_s, pace);
  }
  const from = { ...moment, mode: plant.rescript(moment.mode, script) };
  const told = tell(plant, from, trunk.recording.branch(delay_s), delay_s, duration_s, pace, {});
  if ("failed" in told) return told;
  return { ...told, events: [...trunk.events.filter((event) => event.t < delay_s), ...told.events] };
}

/** Runs a story from the beginning. */
export function tellWhole(
  plant: CircuitPlant,
  script: Script,
  delay_s: number,
  duration_s: number,
  pace: Pace,
): Telling | StudyFailure {
  return tell(plant, plant.start(script), recordingOf(plant), delay_s, duration_s, pace, {});
}

interface Snapshots {
  readonly snapshots?: readonly number[];
  readonly onSnapshot?: (t: number, y: readonly number[], mode: Mode) => void;
}

function tell(
  plant: CircuitPlant,
  from: Standing<Mode>,
  recording: Recording,
  delay_s: number,
  duration_s: number,
  pace: Pace,
  snapshots: Snapshots,
): Telling | StudyFailure {
  const { outcome, events } = run(plant, from, duration_s, {
    tolerance: pace.tolerance,
    signal: pace.signal,
    maxEvents: pace.maxEvents ?? MOST_EVENTS,
    recorder: recording,
    ...snapshots,
  });
  return failureOf(outcome) ?? { plant, delay_s, duration_s, recording, events, outcome };
}
