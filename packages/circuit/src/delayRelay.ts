import type { Event } from "@startgap/ode";
import { type ControlLogic, watching } from "./control.ts";
import { controlledContact } from "./controlledContact.ts";
import type { Place } from "./conventions.ts";
import { eventName, type PartModel, type Placement } from "./model.ts";
import { stuckBy } from "./script.ts";
import { sensingRelay } from "./sensingRelay.ts";
import { magnitude } from "./walk.ts";

/** On-delay: its contact closes `delay_s` after it is energised; loses the count after `reset_s` without. */
export interface DelayRelayParameters extends Place {
  readonly is: "delay relay";
  readonly delay_s: number;
  readonly reset_s: number;
  /** Counts only from when another part's current has come down from its start; from being energised when silent. */
  readonly waitsFor?: CurrentSense;
}

/** A part is up when its current lies between a tenth of `below_A` and `below_A`. */
export interface CurrentSense {
  readonly part: string;
  readonly below_A: number;
}

export interface DelayRelayMode {
  /** What it does when energised; a lapse keeps it until the reset time has passed. */
  readonly state: "off" | "waiting" | "timing" | "closed";
  /** The delay in force: the file's, or the story's. */
  readonly delay_s: number;
  /** When the present timing began. */
  readonly since_s: number;
  /** When the count is lost, if it is without voltage; null while energised. */
  readonly lapses_s: number | null;
  /** Its contact has failed. */
  readonly stuck?: "open" | "closed";
}

/** Fraction of nominal voltage below which the relay counts as without voltage (common practice, no source). */
const HOLDS_DOWN_TO = 0.5;

/** A voltage this much below the threshold counts as lost: no bounce at the threshold itself. */
const JUST_BELOW = 1 - 1e-9;

/**
 * An on-delay relay loses its count only after its reset time without voltage: a shorter dip drops what is
 * upstream but leaves the relay timed out.
 *
 * @param nominal_V no-load voltage at the relay
 */
export function delayRelayLogic(p: DelayRelayParameters, nominal_V: number): ControlLogic<DelayRelayMode> {
  const energised = eventName(p.name, "is energised");
  const dips = eventName(p.name, "loses its voltage");
  const resets = eventName(p.name, "resets");
  const closes = eventName(p.name, "closes");
  const rising = watching(energised, "rising");
  const falling = watching(dips, "falling");
  const threshold = HOLDS_DOWN_TO * nominal_V;
  const dead = (of: DelayRelayMode): boolean => of.state === "off" || of.lapses_s !== null;
  return {
    start: { state: "off", delay_s: p.delay_s, since_s: 0, lapses_s: null },
    guards: (of) => (dead(of) ? rising : falling),
    threshold_V: (of) => (dead(of) ? threshold : threshold * JUST_BELOW),
    scheduled(of) {
      const events: Event[] = [];
      if (of.lapses_s !== null) events.push({ name: resets, t: of.lapses_s });
      const due = of.since_s + of.delay_s;
      if (of.state === "timing" && due < Number.POSITIVE_INFINITY) events.push({ name: closes, t: due });
      return events;
    },
    reduce(event, of) {
      if (event.name === resets) return { ...of, state: "off", lapses_s: null };
      if (event.name === closes) return { ...of, state: "closed" };
      if (event.name === dips) return { ...of, lapses_s: event.t + p.reset_s };
      if (of.state === "off") return { ...of, state: "timing", since_s: event.t };
      return { ...of, lapses_s: null };
    },
    closed: (of) => (of.stuck === undefined ? of.state === "closed" : of.stuck === "closed"),
    scripted: (of, script) => stuckBy({ ...of, delay_s: script.delay_s(p.name, p.delay_s) }, script, p.name),
  };
}

/** The relay reads the voltage it is fed with. */
export function delayRelayModel(p: DelayRelayParameters, place: Placement): PartModel<DelayRelayMode> {
  const logic = delayRelayLogic(p, place.nominal_V);
  const model = controlledContact(logic, place, (w) => magnitude(w, place.at));
  return p.waitsFor === undefined ? model : sensingRelay(p.name, p.waitsFor, model, place);
}
