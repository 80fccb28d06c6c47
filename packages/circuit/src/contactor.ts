import type { Leg, Place } from "./conventions.ts";
import { eventName, type PartGuard, type PartModel, type Placement, plain } from "./model.ts";
import { magnitude, straight, unfoldOpen } from "./walk.ts";

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
 * A contactor whose coil follows the sag: it closes a pull-in time after its coil reaches the pull-in
 * voltage, opens a drop-out time after its coil falls to the drop-out voltage, and lets neither pass when
 * the voltage returns in time. Chatter arises by itself. It is called at 0 s and its coil was live before:
 * with enough volts at 0 s it closes at 0 s.
 *
 * The contact has no resistance. Without a coil it is closed throughout.
 */
export function contactorModel(p: ContactorParameters, place: Placement): PartModel<ContactorMode> {
  const { part, at } = place;
  const [out] = place.out;
  const link = straight(part, at, out);
  const { coil } = p;
  const coilNode = coil === null ? -1 : place.nodeOf(coil.fedBy, coil.leg);
  const names = {
    drops: eventName(p.name, "coil falls to drop-out"),
    recovers: eventName(p.name, "coil recovers"),
    opens: eventName(p.name, "opens"),
    calls: eventName(p.name, "coil reaches pull-in"),
    fails: eventName(p.name, "coil falls before pull-in"),
    closes: eventName(p.name, "pulls in"),
  };
  const guard = (name: string, direction: "rising" | "falling"): readonly PartGuard[] => [
    { name, direction, level: true, electrical: true },
  ];
  const guards = {
    closed: guard(names.drops, "falling"),
    "letting go": guard(names.recovers, "rising"),
    open: guard(names.calls, "rising"),
    "pulling in": guard(names.fails, "falling"),
  };
  const thresholds =
    coil === null
      ? null
      : {
          closed: coil.dropOut_V,
          "letting go": coil.pullIn_V,
          open: coil.pullIn_V,
          "pulling in": coil.pullIn_V * JUST_BELOW,
        };
  let mode: ContactorMode = { state: coil === null ? "closed" : "pulling in", until_s: 0, dropOuts: 0 };
  const start = { y: [], mode };
  const made = (of: ContactorMode): boolean => of.state === "closed" || of.state === "letting go";
  return {
    ...plain,
    start,
    enter(next) {
      mode = next;
    },
    fold(w) {
      if (made(mode)) link.fold(w);
    },
    unfold(w) {
      if (made(mode)) link.unfold(w);
      else unfoldOpen(w, part, out);
    },
    guards: (of) => (coil === null ? [] : guards[of.state]),
    guardValues(w, _, values, offset) {
      if (thresholds !== null) values[offset] = magnitude(w, coilNode) - thresholds[mode.state];
    },
    scheduled(of) {
      if (of.state === "pulling in") return [{ name: names.closes, t: of.until_s }];
      if (of.state === "letting go") return [{ name: names.opens, t: of.until_s }];
      return [];
    },
    reduce(event, _, of) {
      if (coil === null) return of;
      if (event.name === names.drops) {
        return { ...of, state: "letting go", until_s: event.t + coil.dropOutTime_s };
      }
      if (event.name === names.calls)
        return { ...of, state: "pulling in", until_s: event.t + coil.pullInTime_s };
      if (event.name === names.opens) return { ...of, state: "open", dropOuts: of.dropOuts + 1 };
      if (event.name === names.fails) return { ...of, state: "open" };
      return { ...of, state: "closed" };
    },
    conducts: made,
  };
}
