import type { Cabinet } from "@startgap/cabinet";
import {
  type Circuit,
  type CircuitPlant,
  type ContactorMode,
  type Mode,
  plantOf,
  type Script,
} from "@startgap/circuit";
import { run, type Standing } from "@startgap/ode";
import { failureOf, type StudyFailure } from "../failure.ts";
import type { StudyOptions } from "../options.ts";
import { recordingOf } from "../recording.ts";
import { delayFor, type Stagger, scriptFor, staggerOf } from "../stagger.ts";
import { durationOf, type Pace, type Telling } from "../telling.ts";
import type { Skipped } from "./caseStory.ts";
import { runs } from "./runs.ts";

/** A cabinet ready for its cases. */
export interface Scene {
  readonly cabinet: Cabinet;
  /** With air that stands: every pressure switch calls, and a story of seconds does not change that. */
  readonly circuit: Circuit;
  readonly stagger: Stagger;
  readonly delay_s: number;
  /** Until everything that starts has settled. */
  readonly settled_s: number;
  /** The dip of the case that tells of one. */
  readonly dip: Dip;
  /** How often a held motor is tried. */
  readonly tries: number;
  readonly signal: StudyOptions["signal"];
}

/** The voltage that is left, as a fraction of nominal, and for how long. */
export interface Dip {
  readonly left: number;
  readonly length_s: number;
}

/** A blip: longer than contactors hold, shorter than most relays need to reset. */
const BLIP: Dip = { left: 0, length_s: 0.06 };
/** Tries before somebody looks for what is wrong. Common practice, no source. */
const TRIES = 3;
const MOST_TRIES = 20;
/** Depth and length of a dip that makes sense: up to an hour. */
const LONGEST_DIP_s = 3600;

interface Asked {
  readonly dip?: Dip;
  readonly tries?: number;
}

/** @throws RangeError for a dip or a number of tries that is none */
export function sceneOf(cabinet: Cabinet, options: StudyOptions, asked: Asked = {}): Scene {
  const { dip = BLIP, tries = TRIES } = asked;
  checkDip(dip);
  if (!Number.isInteger(tries) || tries < 1 || tries > MOST_TRIES)
    throw new RangeError(`invalid tries: ${tries} (expected 1 to ${MOST_TRIES})`);
  const circuit = withStandingAir(cabinet.circuit);
  const stagger = staggerOf(circuit);
  const delay_s = delayFor(stagger, options.delay_s);
  const settled_s = durationOf(stagger, delay_s, options.duration_s);
  return { cabinet, circuit, stagger, delay_s, settled_s, dip, tries, signal: options.signal };
}

export function checkDip({ left, length_s }: Dip): void {
  if (!(left >= 0 && left < 1)) throw new RangeError(`invalid left: ${left} (expected 0 to below 1)`);
  if (!(length_s > 0 && length_s <= LONGEST_DIP_s))
    throw new RangeError(`invalid length_s: ${length_s} (expected above 0, up to ${LONGEST_DIP_s})`);
}

/** Enough to keep a pressure within a millionth for as long as a start lasts. */
const VAST = 1e6;

/** The same cabinet at the moment in which everything is called: pressures at the lowest cut-in, and standing. */
function withStandingAir(circuit: Circuit): Circuit {
  if (circuit.controls === undefined) return circuit;
  const { controls } = circuit;
  const cutIns = (receiver: string): number[] =>
    controls.flatMap((c) => (c.is === "pressure switch" && c.receiver === receiver ? [c.cutIn_Pa] : []));
  return {
    ...circuit,
    controls: controls.map((c) =>
      c.is === "receiver"
        ? { ...c, pressure_Pa: Math.min(c.pressure_Pa, ...cutIns(c.name)), volume_m3: VAST * c.volume_m3 }
        : c,
    ),
  };
}

/** The start as the file has it. */
export const asFiled = (scene: Scene): Script => scriptFor(scene.stagger, scene.delay_s);

/** Relays that hold a motor back. */
export const holding = ({ stagger }: Scene): string[] =>
  stagger.byRelay ? stagger.holds.filter((hold) => !hold.leads).map((hold) => hold.name) : [];

/** One motor alone, at once: every relay ahead of it is closed, every other motor stays off. */
export const onlyOne = (scene: Scene, motor: string): Script => ({
  ...scriptFor(scene.stagger, 0),
  connects_s: (name) => (name === motor ? 0 : Number.POSITIVE_INFINITY),
});

/** The first motor alone: whatever is held back stays off. */
export const firstAlone = (scene: Scene): Script => scriptFor(scene.stagger, Number.POSITIVE_INFINITY);

/** True when a story can step the supply's voltage: a generator or an inverter has a will of its own. */
export function hasSteadySupply(circuit: Circuit): boolean {
  const [supply] = circuit.parts;
  return supply.is === "supply" && (supply.source === undefined || supply.source === null);
}

/** Events in one story that is not recorded: chatter that goes on so long has shown what it does. */
const MOST_EVENTS = 2000;

/** Runs on from a standing, recorded. */
export function tellFrom(
  plant: CircuitPlant,
  from: Standing<Mode>,
  until_s: number,
  delay_s: number,
  pace: Pace,
): (Telling & { readonly end: Standing<Mode> }) | StudyFailure {
  const recording = recordingOf(plant);
  const { outcome, events, end } = run(plant, from, until_s, {
    tolerance: pace.tolerance,
    signal: pace.signal,
    maxEvents: pace.maxEvents ?? MOST_EVENTS,
    recorder: recording,
  });
  return failureOf(outcome) ?? { plant, delay_s, duration_s: until_s, recording, events, outcome, end };
}

/** Runs on from a standing, unrecorded. */
export function runFrom(
  plant: CircuitPlant,
  from: Standing<Mode>,
  until_s: number,
  pace: Pace,
): Standing<Mode> | StudyFailure {
  const { outcome, end } = run(plant, from, until_s, {
    tolerance: pace.tolerance,
    signal: pace.signal,
    maxEvents: pace.maxEvents ?? MOST_EVENTS,
  });
  return failureOf(outcome) ?? end;
}

/** The same standing with nothing held against its contactors: they are judged on what follows. */
export const forgetting = (plant: CircuitPlant, from: Standing<Mode>): Standing<Mode> => ({
  ...from,
  mode: from.mode.map((own, i) =>
    plant.layout.circuit.parts[i]?.is === "contactor" ? { ...(own as ContactorMode), dropOuts: 0 } : own,
  ),
});

/** A cabinet with everything running, from which dips branch. */
export interface Running {
  readonly plant: CircuitPlant;
  readonly end: Standing<Mode>;
}

/**
 * Everything started as filed and settled, heads followed: empty at first, full after their time. Skipped where not
 * every motor runs then.
 */
export function running(scene: Scene, pace: Pace): Running | Skipped | StudyFailure {
  const plant = plantOf(scene.circuit);
  const script: Script = { ...asFiled(scene), head: () => "vented" };
  const end = runFrom(plant, plant.start(script), scene.settled_s, pace);
  if ("failed" in end) return end;
  const off = plant.layout.circuit.parts.filter(
    (p, i) => p.is === "motor" && !(plant.isLive(i, end.mode) && runs(plant, i, end.y, end.mode)),
  );
  if (off.length === 0) return { plant, end };
  const names = off.map(({ name }) => name).join(", ");
  return { skipped: `Not everything runs before it: ${names} must come up first.` };
}
