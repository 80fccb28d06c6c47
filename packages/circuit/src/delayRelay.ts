import type { Event } from "@startgap/ode";
import type { Place } from "./conventions.ts";
import { eventName, type PartGuard, type PartModel, type Placement, plain } from "./model.ts";
import { magnitude, straight, unfoldOpen } from "./walk.ts";

/** On-delay: its contact closes `delay_s` after it is energised; loses the count after `reset_s` without. */
export interface DelayRelayParameters extends Place {
  readonly is: "delay relay";
  readonly delay_s: number;
  readonly reset_s: number;
}

export interface DelayRelayMode {
  /** What it does when energised; a lapse keeps it until the reset time has passed. */
  readonly state: "off" | "timing" | "closed";
  /** The delay in force: the file's, or the story's. */
  readonly delay_s: number;
  /** When the present timing began. */
  readonly since_s: number;
  /** When the count is lost, if it is without voltage; null while energised. */
  readonly lapses_s: number | null;
}

/** Fraction of nominal voltage below which the relay counts as without voltage (common practice, no source). */
const HOLDS_DOWN_TO = 0.5;

/**
 * An on-delay relay in the line to what it feeds. Loses its count only after its reset time without voltage:
 * a shorter dip drops what is upstream but leaves the relay timed out.
 */
export function delayRelayModel(p: DelayRelayParameters, place: Placement): PartModel<DelayRelayMode> {
  const { part, at } = place;
  const [out] = place.out;
  const link = straight(part, at, out);
  const energised = eventName(p.name, "is energised");
  const dips = eventName(p.name, "loses its voltage");
  const resets = eventName(p.name, "resets");
  const closes = eventName(p.name, "closes");
  const rising: readonly PartGuard[] = [
    { name: energised, direction: "rising", level: true, electrical: true },
  ];
  const falling: readonly PartGuard[] = [{ name: dips, direction: "falling", level: true, electrical: true }];
  const threshold = HOLDS_DOWN_TO * place.nominal_V;
  let mode: DelayRelayMode = { state: "off", delay_s: p.delay_s, since_s: 0, lapses_s: null };
  const start = { y: [], mode };
  const dead = (of: DelayRelayMode): boolean => of.state === "off" || of.lapses_s !== null;
  return {
    ...plain,
    start,
    enter(next) {
      mode = next;
    },
    fold(w) {
      if (mode.state === "closed") link.fold(w);
    },
    unfold(w) {
      if (mode.state === "closed") link.unfold(w);
      else unfoldOpen(w, part, out);
    },
    guards: (of) => (dead(of) ? rising : falling),
    guardValues(w, _, values, offset) {
      const level = dead(mode) ? threshold : threshold * (1 - 1e-9);
      values[offset] = magnitude(w, at) - level;
    },
    scheduled(of) {
      const events: Event[] = [];
      if (of.lapses_s !== null) events.push({ name: resets, t: of.lapses_s });
      const due = of.since_s + of.delay_s;
      if (of.state === "timing" && due < Number.POSITIVE_INFINITY) events.push({ name: closes, t: due });
      return events;
    },
    reduce(event, _, of) {
      if (event.name === resets) return { ...of, state: "off", lapses_s: null };
      if (event.name === closes) return { ...of, state: "closed" };
      if (event.name === dips) return { ...of, lapses_s: event.t + p.reset_s };
      if (of.state === "off") return { ...of, state: "timing", since_s: event.t };
      return { ...of, lapses_s: null };
    },
    conducts: (of) => of.state === "closed",
    scripted: (of, script) => ({ ...of, delay_s: script.delay_s(p.name, p.delay_s) }),
  };
}
