import type { Circuit, CircuitPlant, Mode, Script } from "@startgap/circuit";
import { plantOf } from "@startgap/circuit";
import { type Event, run } from "@startgap/ode";
import { failureOf, type StudyFailure } from "../failure.ts";
import { lasting } from "../failures/dangers.ts";
import { eventOf } from "../story.ts";
import type { Pace } from "../telling.ts";
import type { CaseStory, Told } from "./caseStory.ts";
import type { CaseFinding } from "./results.ts";
import { asFiled, type Scene } from "./scene.ts";

const IN_LINE =
  "Let a pressure switch break the motor's own line, or put a second contactor in series, and test the relief valve every season.";
/** Longest time in which a receiver is waited for, s. */
const WAITS_s = 6 * 3600;
const STRETCH_s = 600;
const SHOWN_EVENTS = 200;

/** Contactors with a coil and a motor behind them. */
function weldable({ parts }: Circuit): string[] {
  const byName = new Map(parts.map((p) => [p.name, p]));
  const ahead = new Set<string>();
  for (const motor of parts) {
    if (motor.is !== "motor") continue;
    for (let name = motor.fedBy; name !== ""; ) {
      const p = byName.get(name);
      if (p === undefined) break;
      if (p.is === "contactor" && p.coil !== null) ahead.add(p.name);
      name = p.is === "supply" ? "" : p.fedBy;
    }
  }
  return [...ahead];
}

const hasAir = ({ parts }: Circuit): boolean =>
  parts.some((p) => p.is === "motor" && p.compressor !== undefined && p.compressor.delivers !== null);

/** Contacts that no longer open: pressure switches in the coil's path can do nothing, those in the line can. */
export const weldedContactor: CaseStory = {
  kind: "contactor welded",
  about: ({ circuit }) =>
    `Welded is ${weldable(circuit).join(", ")}: the motors run until something else stops them, or the relief valve lifts.`,
  skip({ circuit }) {
    if (weldable(circuit).length === 0) return "No contactor with a coil stands ahead of a motor.";
    return hasAir(circuit) ? null : "No compressor is known to fill a receiver, so nothing calls for a stop.";
  },
  tell: tellWelded,
};

function tellWelded(scene: Scene, pace: Pace): Told | StudyFailure {
  // The receivers as they are: here their pressure is what moves. Demand would only delay the end.
  const circuit = withoutDemand(scene.cabinet.circuit);
  const plant = plantOf(circuit);
  const welded = new Set(weldable(circuit));
  const script: Script = { ...asFiled(scene), stuck: (part) => (welded.has(part) ? "closed" : null) };
  const waited = waitFor(plant, script, pace);
  if ("failed" in waited) return waited;
  const { events, mode } = waited;
  return {
    report: null,
    findings: motorsOf(plant).map((motor) => stopFinding(plant, motor, events, mode)),
    events: events.slice(0, SHOWN_EVENTS).map(eventOf),
  };
}

/** What happened until every compressor was stopped, pumped no more, or had lifted its relief valve. */
function waitFor(plant: CircuitPlant, script: Script, pace: Pace): Waited | StudyFailure {
  const { tolerance, signal } = pace;
  const motors = motorsOf(plant);
  const events: Event[] = [];
  let standing = plant.start(script);
  const decided = (): boolean =>
    motors.every(
      (motor) =>
        !plant.isLive(motor.part, standing.mode) ||
        events.some(({ name }) => name === liftOf(motor) || name === idlesOf(motor)),
    );
  while (standing.t < WAITS_s && (standing.t === 0 || !decided())) {
    const told = run(plant, standing, standing.t + STRETCH_s, { tolerance, signal });
    const failure = failureOf(told.outcome);
    if (failure !== null) return failure;
    events.push(...told.events);
    standing = told.end;
    if (told.outcome.ending === "endless chatter") break;
  }
  return { events, mode: standing.mode };
}

interface Waited {
  readonly events: readonly Event[];
  readonly mode: Mode;
}

const withoutDemand = (circuit: Circuit): Circuit => ({
  ...circuit,
  controls: (circuit.controls ?? []).map((c) =>
    c.is === "receiver" ? { ...c, demand: [{ from_s: 0, flow_m3ps: 0 }] } : c,
  ),
});

interface Pumping {
  readonly name: string;
  readonly receiver: string;
  /** The pressure switch that works its unloader; null where none does. */
  readonly unloadedBy: string | null;
  readonly part: number;
}

const motorsOf = ({ layout }: CircuitPlant): Pumping[] =>
  layout.circuit.parts.flatMap((p, part) => {
    if (p.is !== "motor" || !p.compressor?.delivers) return [];
    const { unloader, delivers } = p.compressor;
    const valve = typeof unloader === "string" ? null : unloader.switch;
    return [{ name: p.name, receiver: delivers.receiver, unloadedBy: valve, part }];
  });

/** Its unloader opens with its pressure switch: from then on its air goes back into the room. */
const idlesOf = ({ unloadedBy }: Pumping): string => `${unloadedBy}: cuts out`;
const liftOf = ({ receiver }: Pumping): string => `${receiver}: relief valve lifts`;

/** What stopped a compressor, or what its receiver came to. */
function stopFinding(plant: CircuitPlant, motor: Pumping, events: readonly Event[], mode: Mode): CaseFinding {
  const happens = (what: string): Event | undefined => events.find(({ name }) => name === what);
  const lifts = happens(liftOf(motor));
  const idles = happens(idlesOf(motor));
  const stops = stoppedBy(plant, motor, events, mode);
  const { name, receiver } = motor;
  const told = (
    outcome: CaseFinding["outcome"],
    at: Event | undefined,
    says: string,
    change: string | null,
  ): CaseFinding => ({
    finding: "stops at its pressure",
    part: name,
    case: "contactor welded",
    outcome,
    gravity: "danger",
    value: at?.t ?? null,
    limit: null,
    unit: "s",
    basis: "common practice, no source: the relief valve is the last line, not the stop; test it",
    says: `${name}: ${says}.`,
    change,
  });
  if (lifts !== undefined) {
    const says = `runs on past the cut-out until the relief valve of ${receiver} lifts after ${lasting(lifts.t)}`;
    return told("caution", lifts, says, IN_LINE);
  }
  if (stops !== null)
    return told("pass", stops, `stopped after ${lasting(stops.t)} by ${eventOf(stops).part}`, null);
  if (idles !== undefined) {
    const says = `runs on past the cut-out after ${lasting(idles.t)}, pumping nothing while its unloader is open`;
    return told("caution", idles, says, IN_LINE);
  }
  const bare = `nothing stops it and ${receiver} has no relief valve in the file`;
  return told("fail", undefined, bare, `Fit a relief valve to ${receiver}. ${IN_LINE}`);
}

/** The last event of a fuse or contactor on its way, when it is dead at the end; or its stall. */
function stoppedBy(plant: CircuitPlant, motor: Pumping, events: readonly Event[], mode: Mode): Event | null {
  if (plant.isLive(motor.part, mode)) return null;
  const { feeders, circuit } = plant.layout;
  const way = new Set<string>();
  const isWelded = (i: number): boolean =>
    (mode[i] as { readonly stuck?: string } | null)?.stuck === "closed";
  for (let i = feeders[motor.part]; i >= 0; i = feeders[i]) {
    // A welded contactor's armature still falls: what it says opens nothing.
    if (!isWelded(i)) way.add(circuit.parts[i].name);
  }
  const opening = (event: Event): boolean => {
    const { part, what } = eventOf(event);
    return way.has(part) && (what === "opens" || what === "melts");
  };
  return [...events].reverse().find(opening) ?? null;
}
