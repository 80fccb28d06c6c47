import { type ControlLogic, watching } from "./control.ts";
import { controlledContact } from "./controlledContact.ts";
import type { Leg, Place } from "./conventions.ts";
import { eventName, type PartModel, type Placement } from "./model.ts";

export interface Coil {
  readonly rated_V: number;
  /** The part whose output feeds the coil. */
  readonly fedBy: string;
  readonly leg: Leg;
  readonly pullIn_V: number;
  readonly dropOut_V: number;
  readonly pullInTime_s: number;
  readonly dropOutTime_s: number;
}

/** Main contacts worked by a coil; without a coil it is a switch closed by hand at 0 s. */
export interface ContactorParameters extends Place {
  readonly is: "contactor";
  readonly coil: Coil | null;
}

export interface ContactorMode {
  readonly state: "open" | "pulling in" | "closed" | "letting go";
  /** When the lag under way ends. */
  readonly until_s: number;
  readonly dropOuts: number;
}

/** A voltage this much below pull-in counts as lost while pulling in: no bounce at the threshold itself. */
const JUST_BELOW = 1 - 1e-9;

/**
 * A coil follows the sag: the contact closes a pull-in time after the coil reaches the pull-in voltage, opens
 * a drop-out time after it falls to the drop-out voltage, and does neither when the voltage returns in time.
 * Chatter arises by itself. It is called at 0 s and its coil was live before: with enough volts it closes at
 * 0 s. Without a coil it is closed throughout.
 */
export function contactorLogic(p: ContactorParameters): ControlLogic<ContactorMode> {
  const { coil } = p;
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
  const pullIn = coil?.pullIn_V ?? 0;
  const thresholds = {
    closed: coil?.dropOut_V ?? 0,
    "letting go": pullIn,
    open: pullIn,
    "pulling in": pullIn * JUST_BELOW,
  };
  return {
    start: { state: coil === null ? "closed" : "pulling in", until_s: 0, dropOuts: 0 },
    guards: (of) => (coil === null ? [] : guards[of.state]),
    threshold_V: (of) => thresholds[of.state],
    scheduled(of) {
      if (of.state === "pulling in") return [{ name: closes, t: of.until_s }];
      if (of.state === "letting go") return [{ name: opens, t: of.until_s }];
      return [];
    },
    reduce(event, of) {
      const after = (lag_s = 0): number => event.t + lag_s;
      if (event.name === drops) return { ...of, state: "letting go", until_s: after(coil?.dropOutTime_s) };
      if (event.name === calls) return { ...of, state: "pulling in", until_s: after(coil?.pullInTime_s) };
      if (event.name === opens) return { ...of, state: "open", dropOuts: of.dropOuts + 1 };
      if (event.name === fails) return { ...of, state: "open" };
      return { ...of, state: "closed" };
    },
    closed: (of) => of.state === "closed" || of.state === "letting go",
    scripted: (of) => of,
  };
}

/** The contact has no resistance; its coil reads the voltage of the node that feeds it. */
export function contactorModel(p: ContactorParameters, place: Placement): PartModel<ContactorMode> {
  const coilNode = p.coil === null ? place.at : place.nodeOf(p.coil.fedBy, p.coil.leg);
  return controlledContact(contactorLogic(p), place, coilNode);
}
