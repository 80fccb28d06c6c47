import type { ControlPlacement } from "./controls.ts";
import type { Leg } from "./conventions.ts";
import { eventName, type PartGuard, type PartModel, plain } from "./model.ts";
import { stuckBy } from "./script.ts";
import { magnitude } from "./walk.ts";

/**
 * A timer that watches a voltage: its contact opens when the voltage is lost for longer than it rides through,
 * and stays open for a while after the voltage is back.
 */
export interface LockOutTimerParameters {
  readonly is: "lock-out timer";
  readonly name: string;
  /** The part whose output it watches. */
  readonly watches: string;
  readonly leg: Leg;
  readonly lockOut_s: number;
  /** Fraction of nominal voltage below which it counts as lost. */
  readonly below: number;
  readonly ridesThrough_s: number;
}

export interface LockOutMode {
  readonly state: "closed" | "wavering" | "dead" | "counting";
  /** When the ride-through or the lock-out ends. */
  readonly until_s: number;
  readonly stuck?: "open" | "closed";
}

/** A voltage this much below the threshold counts as lost: no bounce at the threshold itself. */
const JUST_BELOW = 1 - 1e-9;

/** It has been live for long before a story begins, so that it begins closed. */
export function lockOutTimerModel(
  p: LockOutTimerParameters,
  place: ControlPlacement,
): PartModel<LockOutMode> {
  const { index } = place;
  const { closed } = place.contacts;
  const node = place.nodeOf(p.watches, p.leg);
  const threshold = p.below * place.nominalOf(node);
  const guard = (what: string, direction: PartGuard["direction"]): readonly PartGuard[] => [
    { name: eventName(p.name, what), direction, level: true, electrical: true },
  ];
  const lost = guard("loses its voltage", "falling");
  const returns = guard("has voltage again", "rising");
  const locks = eventName(p.name, "locks out");
  const frees = eventName(p.name, "lets go");
  const isLive = (of: LockOutMode): boolean => of.state === "closed" || of.state === "counting";
  let mode: LockOutMode = { state: "closed", until_s: 0 };
  return {
    ...plain,
    start: { y: [], mode },
    enter(next) {
      mode = next;
      const whole = next.state === "closed" || next.state === "wavering";
      closed[index] = (next.stuck === undefined ? whole : next.stuck === "closed") ? 1 : 0;
    },
    fold: () => {},
    unfold: () => {},
    guards: (of) => (isLive(of) ? lost : returns),
    guardValues(w, _, values, offset) {
      values[offset] = magnitude(w, node) - (isLive(mode) ? threshold * JUST_BELOW : threshold);
    },
    scheduled(of) {
      if (of.state === "wavering") return [{ name: locks, t: of.until_s }];
      return of.state === "counting" ? [{ name: frees, t: of.until_s }] : [];
    },
    reduce(event, _, of) {
      if (event.name === locks) return { ...of, state: "dead" };
      if (event.name === frees) return { ...of, state: "closed" };
      if (event.name === returns[0].name) {
        if (of.state === "wavering") return { ...of, state: "closed" };
        return { ...of, state: "counting", until_s: event.t + p.lockOut_s };
      }
      if (of.state === "counting") return { ...of, state: "dead" };
      return { ...of, state: "wavering", until_s: event.t + p.ridesThrough_s };
    },
    scripted: (of, script) => stuckBy(of, script, p.name),
  };
}
