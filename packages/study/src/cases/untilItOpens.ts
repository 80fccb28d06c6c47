import { type CircuitPlant, plantOf, type Script } from "@startgap/circuit";
import { type Event, run } from "@startgap/ode";
import type { StudyFailure } from "../failure.ts";
import type { Verdict } from "../results.ts";
import { eventOf } from "../story.ts";
import type { Pace } from "../telling.ts";
import { amperes, seconds } from "../words.ts";
import type { CaseStory, Told } from "./caseStory.ts";
import type { CaseFinding, CaseKind } from "./results.ts";
import { firstAlone, type Scene } from "./scene.ts";

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
  readonly plant: CircuitPlant;
  readonly motor: string;
  readonly current_A: number;
  /** What took it off, and when; null when nothing did. */
  readonly off: Event | null;
  readonly chatters: boolean;
  readonly events: readonly Event[];
  readonly speed_radps: number;
}

/** The first motor alone with what has failed in it, until a fuse or contactor takes it off the line. */
export function followFailed(scene: Scene, failed: Partial<Script>, pace: Pace): Followed | StudyFailure {
  const plant = plantOf(scene.circuit);
  const motor = scene.stagger.first;
  const part = plant.layout.circuit.parts.findIndex((p) => p.name === motor);
  const start = plant.start({ ...firstAlone(scene), head: () => "vented", ...failed });
  const { events, end, outcome } = run(plant, start, WAITS_s, {
    tolerance: pace.tolerance,
    signal: pace.signal,
    maxEvents: MOST_EVENTS,
  });
  if (["cancelled", "not finite", "too many steps"].includes(outcome.ending))
    return { failed: outcome.says, at_s: outcome.t };
  const melts = events.find(({ name }) => name.endsWith(": melts")) ?? null;
  const live = plant.isLive(part, end.mode);
  const walk = plant.solve(end.y, end.mode);
  return {
    plant,
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

/** One finding: how long the failed motor stays on the line. */
export function clearedFinding(kind: CaseKind, scene: Scene, followed: Followed, state: string): CaseFinding {
  const { motor, off, chatters } = followed;
  const protector = protectorOf(scene, motor);
  const at_s = off?.t ?? null;
  const soon = at_s !== null && at_s <= OFF_WITHIN_s.caution;
  const outcome: Verdict =
    at_s !== null && at_s <= OFF_WITHIN_s.pass ? "pass" : soon || protector !== null ? "caution" : "fail";
  const must =
    protector === null ? "" : ` ${protector.charAt(0).toUpperCase()}${protector.slice(1)} must act sooner.`;
  return {
    finding: "taken off the line",
    part: motor,
    case: kind,
    outcome: chatters ? "fail" : outcome,
    value: at_s,
    limit: OFF_WITHIN_s.pass,
    unit: "s",
    basis: BASIS,
    says: chatters
      ? `${motor}: ${state}, and the contactor chatters on it.`
      : off === null
        ? `${motor}: ${state}; nothing opens within ${seconds(WAITS_s)}.${must}`
        : `${motor}: ${state} until ${eventOf(off).part} opens after ${seconds(off.t)}.${soon ? "" : must}`,
  };
}

export const toldOf = (followed: Followed, findings: readonly CaseFinding[]): Told => ({
  report: null,
  findings,
  events: followed.events.slice(0, SHOWN_EVENTS).map(eventOf),
});

/** The rotor held still under voltage. */
export const stalledRotor: CaseStory = {
  kind: "stalled rotor",
  about: ({ stagger }) => `${stagger.first} is held still under voltage until something opens.`,
  skip: () => null,
  tell(scene, pace) {
    const { first } = scene.stagger;
    const followed = followFailed(scene, { held: (motor) => motor === first }, pace);
    if ("failed" in followed) return followed;
    const state =
      followed.off === null ? `stands still and draws ${amperes(followed.current_A)}` : "stands still";
    return toldOf(followed, [clearedFinding("stalled rotor", scene, followed, state)]);
  },
};

const hasSwitch = ({ circuit, stagger }: Scene): boolean =>
  circuit.parts.some((p) => p.name === stagger.first && p.is === "motor" && p.machine.startSwitch !== null);

const NO_SWITCH = "The first motor has no start switch.";

/** The start winding stays in circuit: the motor runs, and the winding burns. */
export const switchStuckClosed: CaseStory = {
  kind: "start switch stuck closed",
  about: ({ stagger }) =>
    `The start switch of ${stagger.first} does not open: its start winding stays in circuit.`,
  skip: (scene) => (hasSwitch(scene) ? null : NO_SWITCH),
  tell(scene, pace) {
    const { first } = scene.stagger;
    const stuck = (part: string) => (part === first ? ("closed" as const) : null);
    const followed = followFailed(scene, { stuck }, pace);
    if ("failed" in followed) return followed;
    const state =
      followed.off === null
        ? `runs on both windings and draws ${amperes(followed.current_A)}`
        : "runs on both windings";
    return toldOf(followed, [clearedFinding("start switch stuck closed", scene, followed, state)]);
  },
};

/** Without its start winding a single-phase motor has no torque at rest. */
export const switchStuckOpen: CaseStory = {
  kind: "start switch stuck open",
  about: ({ stagger }) =>
    `The start switch of ${stagger.first} does not close: there is no torque to start with.`,
  skip: (scene) => (hasSwitch(scene) ? null : NO_SWITCH),
  tell(scene, pace) {
    const { first } = scene.stagger;
    const stuck = (part: string) => (part === first ? ("open" as const) : null);
    const followed = followFailed(scene, { stuck }, pace);
    if ("failed" in followed) return followed;
    const turning = followed.speed_radps > 0;
    const state = turning ? "turns all the same" : "hums at rest";
    return toldOf(followed, [clearedFinding("start switch stuck open", scene, followed, state)]);
  },
};
