import type { Event } from "@startgap/ode";
import { eventName, type PartGuard, type Placement } from "./model.ts";
import type { LoadTorque } from "./torque.ts";

/** What empties a compressor's head when it stops. */
export type Unloader =
  /** The pressure switch of that name: its valve opens with the switch, and with nothing else. */
  | { readonly switch: string }
  /** Flyweights: it is empty whenever the shaft is at rest. */
  | "centrifugal"
  | "none";

/** A piston compressor on a motor's shaft. */
export interface Compressor {
  /** Torque against full head: what the shaft must beat when the head was not emptied. */
  readonly loaded: LoadTorque;
  /** Torque with an empty head on a cold morning; null when it is not known. */
  readonly coldOil: LoadTorque | null;
  readonly unloader: Unloader;
  /** From breaking away to full head. */
  readonly fills_s: number;
  /** From the unloader's opening to an empty head. */
  readonly vents_s: number;
  /** From coming to rest to a head that has leaked down by itself; Infinity: never. */
  readonly leaks_s: number;
  /** Where its air goes; null when the file does not say. */
  readonly delivers: Delivery | null;
}

export interface Delivery {
  readonly receiver: string;
  /** Free air at `atSpeed_radps`; in proportion to the speed. */
  readonly flow_m3ps: number;
  readonly atSpeed_radps: number;
}

export interface HeadMode {
  readonly state: "vented" | "filling" | "loaded" | "venting";
  /** When it is full, empty or leaked down; Infinity while nothing is under way. */
  readonly until_s: number;
}

export const fullHead: HeadMode = { state: "loaded", until_s: Number.POSITIVE_INFINITY };
export const emptyHead: HeadMode = { state: "vented", until_s: Number.POSITIVE_INFINITY };

/** The events of a compressor's head, told apart from those of its motor. */
export interface HeadEvents {
  readonly guard: (of: HeadMode) => PartGuard;
  /** Above zero once the guard's condition is met. */
  readonly value: (of: HeadMode, turning: boolean) => number;
  readonly scheduled: (of: HeadMode) => readonly Event[];
  /** The next state; null for an event that is not the head's. */
  readonly reduce: (event: Event, of: HeadMode) => HeadMode | null;
  /** What the shaft's coming to rest makes of it. */
  readonly atRest: (of: HeadMode, t: number) => HeadMode;
  readonly breaksAway: (of: HeadMode) => HeadMode;
}

/**
 * A head fills once its compressor turns with the unloader shut, and empties once the unloader is open. An
 * unloader on a pressure switch knows nothing of power failures and other switches: a motor that these stop
 * starts again against full head.
 *
 * Between empty and full the torque steps at the end of the time; a head caught half full counts as what it was.
 */
export function headEvents(name: string, p: Compressor, place: Placement): HeadEvents {
  const is = (what: string) => eventName(name, what);
  const guard = (what: string): PartGuard => ({
    name: is(what),
    direction: "rising",
    level: true,
    electrical: false,
  });
  const guards = {
    vented: guard("head begins to fill"),
    filling: guard("head stops filling"),
    loaded: guard("unloader opens"),
    venting: guard("unloader shuts"),
  };
  const done = {
    vented: "",
    filling: is("head is full"),
    loaded: is("head has leaked down"),
    venting: is("head is empty"),
  };
  const isOpen = unloaderOf(p.unloader, place);
  const next = (event: Event): HeadMode | null => {
    if (event.name === guards.vented.name) return { state: "filling", until_s: event.t + p.fills_s };
    if (event.name === guards.loaded.name) return { state: "venting", until_s: event.t + p.vents_s };
    if (event.name === guards.venting.name || event.name === done.filling) return fullHead;
    const empties = [guards.filling.name, done.venting, done.loaded].includes(event.name);
    return empties ? emptyHead : null;
  };
  return {
    guard: (of) => guards[of.state],
    value(of, turning) {
      const open = isOpen(turning);
      const met = {
        vented: turning && !open,
        filling: !turning || open,
        loaded: open,
        venting: !open,
      }[of.state];
      return met ? 1 : -1;
    },
    scheduled: (of) =>
      of.until_s === Number.POSITIVE_INFINITY ? [] : [{ name: done[of.state], t: of.until_s }],
    reduce: next,
    atRest: (of, t) => (of.state === "loaded" ? { ...of, until_s: t + p.leaks_s } : of),
    breaksAway: (of) => (of.state === "loaded" ? fullHead : of),
  };
}

function unloaderOf(unloader: Unloader, place: Placement): (turning: boolean) => boolean {
  if (unloader === "none") return () => false;
  if (unloader === "centrifugal") return (turning) => !turning;
  const { closed } = place.contacts;
  const index = place.contacts.indexOf(unloader.switch);
  return () => closed[index] === 0;
}

/** True while the full head stands on the pistons: also while it is emptying. */
export const isLoaded = (of: HeadMode): boolean => of.state === "loaded" || of.state === "venting";
