import { type ClosedBy, pathThrough } from "./contacts.ts";
import { type ControlLogic, watching } from "./control.ts";
import { controlledContact } from "./controlledContact.ts";
import type { Leg, Place } from "./conventions.ts";
import { eventName, type PartModel, type Placement } from "./model.ts";
import { stuckBy } from "./script.ts";
import { magnitude } from "./walk.ts";

export interface Coil {
  readonly rated_V: number;
  /** The part whose output feeds the coil. */
  readonly fedBy: string;
  readonly leg: Leg;
  readonly pullIn_V: number;
  readonly dropOut_V: number;
  readonly pullInTime_s: number;
  readonly dropOutTime_s: number;
  /** What the coil itself draws; nothing when silent. */
  readonly burden?: CoilBurden;
}

/** What an alternating-current coil draws at its rated voltage: far more until its armature has come in. */
export interface CoilBurden {
  readonly inrush_VA: number;
  readonly inrushPowerFactor: number;
  readonly sealed_VA: number;
  readonly sealedPowerFactor: number;
}

/**
 * Main contacts worked by a coil. Without a coil they follow the path that closes them at once, as those of a
 * pressure switch in the line do; without either it is a switch closed by hand at 0 s.
 */
export interface ContactorParameters extends Place {
  readonly is: "contactor";
  readonly coil: Coil | null;
  /** The contacts that the coil's current runs through; always closed when silent. */
  readonly closedBy?: ClosedBy;
}

export interface ContactorMode {
  readonly state: "open" | "pulling in" | "closed" | "letting go";
  /** When the lag under way ends. */
  readonly until_s: number;
  /** How often it let go although its path was closed: for want of volts. */
  readonly dropOuts: number;
  /** True while it lets go because its path has opened. */
  readonly released?: boolean;
  /** Its main contacts have failed: "closed" is welded. */
  readonly stuck?: "open" | "closed";
}

/** A voltage this much below pull-in counts as lost while pulling in: no bounce at the threshold itself. */
const JUST_BELOW = 1 - 1e-9;

const always = (): boolean => true;

/**
 * A coil follows the sag: the contact closes a pull-in time after the coil reaches the pull-in voltage, opens
 * a drop-out time after it falls to the drop-out voltage, and does neither when the voltage returns in time.
 * A path that opens takes all voltage from the coil. Chatter arises by itself. It is called at 0 s and its
 * coil was live before: with enough volts it closes at 0 s. With neither coil nor path it is closed throughout.
 *
 * @param called whether the path through its coil is closed
 */
export function contactorLogic(
  p: ContactorParameters,
  called: () => boolean = always,
): ControlLogic<ContactorMode> {
  if (p.coil !== null) return coilLogic(p, p.coil, called);
  return p.closedBy === undefined ? byHand(p) : directLogic(p);
}

function coilLogic(p: ContactorParameters, coil: Coil, called: () => boolean): ControlLogic<ContactorMode> {
  const drops = eventName(p.name, "coil falls to drop-out");
  const recovers = eventName(p.name, "coil recovers");
  const opens = eventName(p.name, "opens");
  const calls = eventName(p.name, "coil reaches pull-in");
  const fails = eventName(p.name, "coil falls before pull-in");
  const closes = eventName(p.name, "pulls in");
  const guards = {
    closed: watching(drops, "falling"),
    "letting go": watching(recovers, "rising"),
    open: watching(calls, "rising"),
    "pulling in": watching(fails, "falling"),
  };
  const thresholds = {
    closed: coil.dropOut_V,
    "letting go": coil.pullIn_V,
    open: coil.pullIn_V,
    "pulling in": coil.pullIn_V * JUST_BELOW,
  };
  const opened = (of: ContactorMode): ContactorMode => {
    const { released, ...rest } = of;
    const wanted = released === true || of.stuck === "closed";
    return { ...rest, state: "open", dropOuts: of.dropOuts + (wanted ? 0 : 1) };
  };
  return {
    ...sharedLogic(p, { state: "pulling in", until_s: 0, dropOuts: 0 }),
    guards: (of) => guards[of.state],
    threshold_V: (of) => thresholds[of.state],
    scheduled(of) {
      if (of.state === "pulling in") return [{ name: closes, t: of.until_s }];
      if (of.state === "letting go") return [{ name: opens, t: of.until_s }];
      return [];
    },
    reduce(event, of) {
      const after = (lag_s: number): number => event.t + lag_s;
      if (event.name === drops) {
        const released = called() ? undefined : true;
        return { ...of, state: "letting go", until_s: after(coil.dropOutTime_s), released };
      }
      if (event.name === calls) return { ...of, state: "pulling in", until_s: after(coil.pullInTime_s) };
      if (event.name === opens) return opened(of);
      if (event.name === fails) return { ...of, state: "open" };
      return { ...of, state: "closed", released: undefined };
    },
  };
}

/** What reads a path without a coil: 1 while it is closed, 0 while it is open. */
const HALF = 0.5;

/** A contact that its path closes and opens at once. */
function directLogic(p: ContactorParameters): ControlLogic<ContactorMode> {
  const closes = eventName(p.name, "closes");
  const opening = watching(eventName(p.name, "opens"), "falling");
  const closing = watching(closes, "rising");
  return {
    ...sharedLogic(p, { state: "open", until_s: 0, dropOuts: 0 }),
    guards: (of) => (of.state === "closed" ? opening : closing),
    threshold_V: () => HALF,
    reduce: (event, of) => ({ ...of, state: event.name === closes ? "closed" : "open" }),
  };
}

const byHand = (p: ContactorParameters): ControlLogic<ContactorMode> => ({
  ...sharedLogic(p, { state: "closed", until_s: 0, dropOuts: 0 }),
  guards: () => [],
  threshold_V: () => 0,
  reduce: (_, of) => of,
});

const sharedLogic = (p: ContactorParameters, start: ContactorMode) => ({
  start,
  scheduled: () => [],
  closed: (of: ContactorMode): boolean =>
    of.stuck === undefined ? of.state === "closed" || of.state === "letting go" : of.stuck === "closed",
  scripted: (of: ContactorMode, script: Parameters<typeof stuckBy>[1]) => stuckBy(of, script, p.name),
});

/** The contact has no resistance; its coil reads the voltage of the node that feeds it, through its path. */
export function contactorModel(p: ContactorParameters, place: Placement): PartModel<ContactorMode> {
  const { coil, closedBy } = p;
  const called = closedBy === undefined ? always : pathThrough(closedBy, place.contacts);
  const logic = contactorLogic(p, called);
  if (coil === null) return controlledContact(logic, place, () => (called() ? 1 : 0));
  const node = place.nodeOf(coil.fedBy, coil.leg);
  return controlledContact(
    logic,
    place,
    closedBy === undefined ? (w) => magnitude(w, node) : (w) => (called() ? magnitude(w, node) : 0),
  );
}
