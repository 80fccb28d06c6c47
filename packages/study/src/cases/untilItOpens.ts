import { type Circuit, type CircuitPlant, plantOf, type Script } from "@startgap/circuit";
import { type Event, run } from "@startgap/ode";
import { failureOf, type StudyFailure } from "../failure.ts";
import { lasting } from "../failures/dangers.ts";
import type { Verdict } from "../results.ts";
import { eventOf } from "../story.ts";
import type { Pace } from "../telling.ts";
import { amperes } from "../words.ts";
import type { CaseStory, Told } from "./caseStory.ts";
import type { CaseFinding, CaseKind } from "./results.ts";
import { onlyOne, type Scene } from "./scene.ts";

/** Long enough for the slowest fuse that will open at all, s. */
const WAITS_s = 600;
/** A motor that stands still is off by then: 5 s is the rule, 15 s what a protector on its case may take. */
const OFF_WITHIN_s = { pass: 5, caution: 15 };
const BASIS =
  "common practice, no source: off within 5 s when it does not come up; a protector on the case takes 5 to 15 s";
const MOST_EVENTS = 400;
const SHOWN_EVENTS = 200;

/** A failed motor followed until something takes it off the line. */
interface Followed {
  readonly motor: string;
  readonly current_A: number;
  /** What took it off, and when; null when nothing did. */
  readonly off: Event | null;
  readonly chatters: boolean;
  readonly events: readonly Event[];
  readonly speed_radps: number;
}

/** Protection is judged on the slow edge of a fuse's band: it opens where its clearing curve says. */
const slowFuses = (circuit: Circuit): Circuit => ({
  ...circuit,
  parts: circuit.parts.map((p) => (p.is === "fuse" ? { ...p, melt: p.clearing ?? p.melt } : p)),
});

/** One motor alone with what has failed in it, until a fuse or contactor takes it off the line. */
function followFailed(
  scene: Scene,
  plant: CircuitPlant,
  motor: string,
  failed: Partial<Script>,
  pace: Pace,
): Followed | StudyFailure {
  const part = plant.layout.circuit.parts.findIndex((p) => p.name === motor);
  const start = plant.start({ ...onlyOne(scene, motor), head: () => "vented", ...failed });
  const { tolerance, signal } = pace;
  const { events, end, outcome } = run(plant, start, WAITS_s, { tolerance, signal, maxEvents: MOST_EVENTS });
  const failure = failureOf(outcome);
  if (failure !== null) return failure;
  const melts = events.find(({ name }) => name.endsWith(": melts")) ?? null;
  const live = plant.isLive(part, end.mode);
  const walk = plant.solve(end.y, end.mode);
  return {
    motor,
    current_A: Math.hypot(walk.ir[part], walk.ii[part]),
    off: live ? null : (melts ?? events[events.length - 1] ?? null),
    chatters: outcome.ending === "endless chatter",
    events,
    speed_radps: end.y[plant.layout.places[part].state],
  };
}

/** What the file says will take the motor off by itself, though no story follows it. */
function protectorOf(scene: Scene, motor: string): string | null {
  const facts = scene.cabinet.facts[motor];
  if (facts?.is !== "motor") return null;
  if (facts.builtInProtector === true) return "its own protector";
  return facts.overload_A === null ? null : "its overload relay";
}

const NO_PROTECTOR =
  "Give it a protector or an overload relay that opens within 10 s of a stall, and switch off by hand what hums.";

/** How it ends, in the words behind the motor's name and state. */
function ending({ off, chatters }: Followed): string {
  if (chatters) return ", and contacts chatter on it";
  if (off === null) return `, and nothing is sure to open within ${lasting(WAITS_s)}`;
  const { part, what } = eventOf(off);
  return what === "melts"
    ? `, and ${part} may take ${lasting(off.t)} to clear it`
    : `, and is off after ${lasting(off.t)} by ${part}`;
}

/** One finding: how long the failed motor stays on the line. */
function clearedFinding(kind: CaseKind, scene: Scene, followed: Followed, state: string): CaseFinding {
  const { motor, off, chatters } = followed;
  const protector = protectorOf(scene, motor);
  const at_s = off?.t ?? null;
  const quick = at_s !== null && at_s <= OFF_WITHIN_s.pass;
  const soon = at_s !== null && at_s <= OFF_WITHIN_s.caution;
  const outcome: Verdict = quick ? "pass" : soon || protector !== null ? "caution" : "fail";
  const trusted = `See that ${protector} trips within ${OFF_WITHIN_s.caution} s of a stall: nothing else is quick enough.`;
  return {
    finding: "taken off the line",
    part: motor,
    case: kind,
    outcome: chatters ? "fail" : outcome,
    gravity: "danger",
    value: at_s,
    limit: OFF_WITHIN_s.pass,
    unit: "s",
    basis: BASIS,
    says: `${motor}: ${state}${ending(followed)}.`,
    change: quick && !chatters ? null : protector === null ? NO_PROTECTOR : trusted,
  };
}

/** What of a motor has failed, and how it stands then. */
interface Failed {
  readonly kind: CaseKind;
  readonly script: (motor: string) => Partial<Script>;
  readonly state: (followed: Followed) => string;
}

/** The same failure in each of these motors in turn; the events are those of the first. */
function tellEach(scene: Scene, motors: readonly string[], of: Failed, pace: Pace): Told | StudyFailure {
  const plant = plantOf(slowFuses(scene.circuit));
  const findings: CaseFinding[] = [];
  let events: Told["events"] = [];
  for (const motor of motors) {
    const followed = followFailed(scene, plant, motor, of.script(motor), pace);
    if ("failed" in followed) return followed;
    findings.push(clearedFinding(of.kind, scene, followed, of.state(followed)));
    if (findings.length === 1) events = followed.events.slice(0, SHOWN_EVENTS).map(eventOf);
  }
  return { report: null, findings, events };
}

/** "stands still and draws 96 A": a current only while there is one. */
const drawing = (state: string, { off, current_A }: Followed): string =>
  off === null ? `${state} and draws ${amperes(current_A)}` : state;

/** The rotor held still under voltage. */
export const stalledRotor: CaseStory = {
  kind: "stalled rotor",
  about: () => "Each motor alone, its rotor held still under voltage until something opens.",
  skip: () => null,
  tell(scene, pace) {
    const script = (motor: string): Partial<Script> => ({ held: (name) => name === motor });
    const state = (followed: Followed): string => drawing("stands still", followed);
    return tellEach(scene, scene.stagger.motors, { kind: "stalled rotor", script, state }, pace);
  },
};

const switched = ({ circuit }: Scene): string[] =>
  circuit.parts.flatMap((p) => (p.is === "motor" && p.machine.startSwitch !== null ? [p.name] : []));

const NO_SWITCH = "No motor has a start switch.";

const stuckAt =
  (as: "open" | "closed") =>
  (motor: string): Partial<Script> => ({ stuck: (part) => (part === motor ? as : null) });

/** The start winding stays in circuit: the motor runs, and the winding burns. */
export const switchStuckClosed: CaseStory = {
  kind: "start switch stuck closed",
  about: () => "A start switch that does not open: the start winding of that motor stays in circuit.",
  skip: (scene) => (switched(scene).length > 0 ? null : NO_SWITCH),
  tell(scene, pace) {
    const state = (followed: Followed): string => drawing("runs on both windings", followed);
    const failed = { kind: "start switch stuck closed", script: stuckAt("closed"), state } as const;
    return tellEach(scene, switched(scene), failed, pace);
  },
};

/** Without its start winding a single-phase motor has no torque at rest. */
export const switchStuckOpen: CaseStory = {
  kind: "start switch stuck open",
  about: () => "A start switch that does not close: that motor has no torque to start with.",
  skip: (scene) => (switched(scene).length > 0 ? null : NO_SWITCH),
  tell(scene, pace) {
    const state = (followed: Followed): string =>
      drawing(followed.speed_radps > 0 ? "turns all the same" : "hums at rest", followed);
    const failed = { kind: "start switch stuck open", script: stuckAt("open"), state } as const;
    return tellEach(scene, switched(scene), failed, pace);
  },
};
