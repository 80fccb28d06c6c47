import { type CircuitPlant, isLoaded, type Mode, type MotorMode, type Script } from "@startgap/circuit";
import { type Event, run, type Standing } from "@startgap/ode";
import { failureOf, type StudyFailure } from "../failure.ts";
import { eventOf } from "../story.ts";
import type { Pace } from "../telling.ts";
import { verdictOf } from "./dipAdvice.ts";
import type { DipEnd, DipOutcome } from "./dipResults.ts";
import { runs } from "./runs.ts";
import { asFiled, type Dip, type Running, type Scene } from "./scene.ts";

/** How long a story goes on after whatever comes last, s. */
const AFTERWARDS_s = 8;
/** Motors that come back within so long of each other come back together, s. */
const TOGETHER_s = 0.5;
/** Events that are taken as chatter without end: some fifty times open and closed, where a dip asks for one. */
const MOST_EVENTS = 300;
/** Let go so often in one story: chatter. */
const CHATTER = 3;

/** A dip as the supply's steps, from `at_s` on. */
export const stepsOf = ({ left, length_s }: Dip, at_s: number): Script["supply"] => [
  { at_s, factor: left },
  { at_s: at_s + length_s, factor: 1 },
];

/** Long enough for every relay and timer to act once more after a dip. */
export function tail_s({ circuit, stagger, delay_s }: Scene): number {
  const lockOuts = (circuit.controls ?? []).map((c) => (c.is === "lock-out timer" ? c.lockOut_s : 0));
  const scale = stagger.stated_s === null ? 1 : Math.max(1, stagger.longest_s / stagger.stated_s);
  return Math.max(0, ...lockOuts) + delay_s * scale + AFTERWARDS_s;
}

/** One motor's voltage through a dip. */
interface Passage {
  readonly name: string;
  readonly part: number;
  live: boolean;
  lost: boolean;
  back_s: number | null;
  loaded: boolean;
}

/**
 * One dip while everything runs, followed until every relay and timer has acted: what lets go, what forgets, and
 * whether the motors come back together or one after the other, against full heads or empty ones.
 */
export function tryDip(
  scene: Scene,
  { plant, end: from }: Running,
  dip: Dip,
  pace: Pace,
): DipOutcome | StudyFailure {
  const script: Script = { ...asFiled(scene), supply: stepsOf(dip, from.t) };
  const start = { ...from, mode: plant.rescript(from.mode, script) };
  const motors = passagesOf(plant, from.mode);
  const over_s = from.t + dip.length_s;
  const follow = followPassages(plant, motors, over_s);
  const { events, end, outcome } = run(plant, start, over_s + tail_s(scene), {
    tolerance: pace.tolerance,
    signal: pace.signal,
    maxEvents: MOST_EVENTS,
    recorder: { interior: false, sample: follow },
  });
  const failure = failureOf(outcome);
  if (failure !== null) return failure;
  const told = outcomeOf(plant, dip, over_s, motors, events, end);
  const ends: DipEnd = outcome.ending === "endless chatter" ? "chatters" : told.end;
  return { ...told, end: ends, verdict: verdictOf({ ...told, end: ends }) };
}

const passagesOf = (plant: CircuitPlant, mode: Mode): Passage[] =>
  plant.layout.circuit.parts.flatMap((p, part) =>
    p.is === "motor"
      ? [{ name: p.name, part, live: plant.isLive(part, mode), lost: false, back_s: null, loaded: false }]
      : [],
  );

/**
 * Notes, at every change of mode, which motors have been cut off or connected again; and, as the voltage comes
 * back, which of those that stayed connected no longer run: they start again there and then.
 */
function followPassages(
  plant: CircuitPlant,
  motors: readonly Passage[],
  over_s: number,
): (t: number, y: readonly number[], mode: Mode) => void {
  let last: Mode | null = null;
  let over = false;
  const comesBack = (motor: Passage, t: number, mode: Mode): void => {
    const { head } = mode[motor.part] as MotorMode;
    motor.back_s = t;
    motor.loaded = head !== undefined && isLoaded(head);
  };
  return (t, y, mode) => {
    if (!over && t >= over_s) {
      over = true;
      for (const motor of motors) {
        if (!motor.live || runs(plant, motor.part, y, mode)) continue;
        motor.lost = true;
        if (motor.back_s === null) comesBack(motor, t, mode);
      }
    }
    if (mode === last) return;
    last = mode;
    for (const motor of motors) {
      const live = plant.isLive(motor.part, mode);
      if (motor.live && !live) motor.lost = true;
      if (!motor.live && live) comesBack(motor, t, mode);
      motor.live = live;
    }
  };
}

function outcomeOf(
  plant: CircuitPlant,
  { left, length_s }: Dip,
  over_s: number,
  motors: readonly Passage[],
  events: readonly Event[],
  end: Standing<Mode>,
): Omit<DipOutcome, "verdict"> {
  const told = events.map(eventOf);
  const { parts } = plant.layout.circuit;
  const kindOf = new Map(parts.map((p) => [p.name, p.is as string]));
  const partsThat = (what: string, is?: string): string[] => [
    ...new Set(
      told
        .filter((e) => e.what === what && (is === undefined || kindOf.get(e.part) === is))
        .map((e) => e.part),
    ),
  ];
  const again = (part: string): number => told.filter((e) => e.part === part && e.what === "opens").length;
  const lost = motors.filter((motor) => motor.lost);
  return {
    left,
    length_s,
    end: endOf(lost, told),
    letGo: partsThat("opens", "contactor"),
    reset: partsThat("resets"),
    lockedOut: partsThat("locks out"),
    fellBack: partsThat("start switch closes").filter((name) => !lost.some((motor) => motor.name === name)),
    loaded: lost.filter((motor) => motor.loaded).map((motor) => motor.name),
    stalled: motors
      .filter((motor) => motor.live && !runs(plant, motor.part, end.y, end.mode))
      .map((motor) => motor.name),
    melted: partsThat("melts"),
    chatters: partsThat("opens", "contactor").filter((part) => again(part) >= CHATTER),
    back_s: motors.map(({ name, back_s }) => ({
      part: name,
      after_s: back_s === null ? null : back_s - over_s,
    })),
  };
}

function endOf(
  lost: readonly Passage[],
  told: readonly { at_s: number; part: string; what: string }[],
): DipEnd {
  if (lost.length === 0) return "holds";
  if (lost.some((motor) => !motor.live || motor.back_s === null)) return "stays off";
  if (lost.length === 1) return "alone";
  const order = [...lost].sort((a, b) => (a.back_s ?? 0) - (b.back_s ?? 0));
  const upAt = (motor: Passage): number =>
    told.find(
      (e) => e.part === motor.name && e.what === "start switch opens" && e.at_s >= (motor.back_s ?? 0),
    )?.at_s ??
    motor.back_s ??
    0;
  const close = order.some((motor, i) => {
    const before = order[i - 1];
    if (before === undefined) return false;
    const gap = (motor.back_s ?? 0) - (before.back_s ?? 0);
    return gap < TOGETHER_s || (motor.back_s ?? 0) < upAt(before);
  });
  return close ? "together" : "staggered";
}
