import type { CurrentSense, DelayRelayMode } from "./delayRelay.ts";
import { eventName, type PartGuard, type PartModel, type Placement } from "./model.ts";
import { currentInto, type Walk } from "./walk.ts";

/** Below this share of the threshold the watched part counts as off, not as up. */
const OFF = 0.1;
/** Above this multiple of the threshold, or below this share of "off", the count begins anew. */
const APART = 1.05;

/**
 * A delay relay that waits for another motor to be up: its count begins when that motor's current has come down
 * from its start, and begins anew when the current rises again or is lost before the relay has closed.
 *
 * A motor that stalls keeps it waiting for ever. A story that asks for no delay at all (0 s) bypasses it.
 *
 * @param timed the same relay counting from when it is energised
 */
export function sensingRelay(
  name: string,
  { part, below_A }: CurrentSense,
  timed: PartModel<DelayRelayMode>,
  place: Placement,
): PartModel<DelayRelayMode> {
  const up = eventName(name, "sees the other up");
  const down = eventName(name, "sees the other start");
  const seesUp: PartGuard = { name: up, direction: "rising", level: true, electrical: true };
  const seesDown: PartGuard = { name: down, direction: "falling", level: true, electrical: true };
  const watched = place.partOf(part);
  const off_A = OFF * below_A;
  const watches = (of: DelayRelayMode): readonly PartGuard[] => {
    if (of.lapses_s !== null || of.delay_s === 0) return [];
    return of.state === "waiting" ? [seesUp] : of.state === "timing" ? [seesDown] : [];
  };
  const between = (w: Walk, low: number, high: number): number => {
    const current = currentInto(w, watched);
    return Math.min(current - low, high - current) / below_A;
  };
  let mode = timed.start.mode;
  return {
    ...timed,
    enter(next) {
      mode = next;
      timed.enter(next);
    },
    guards: (of) => [...timed.guards(of), ...watches(of)],
    guardValues(w, y, values, offset) {
      timed.guardValues(w, y, values, offset);
      const [watch] = watches(mode);
      if (watch === seesUp) values[offset + 1] = between(w, off_A, below_A);
      if (watch === seesDown) values[offset + 1] = between(w, off_A / APART, below_A * APART);
    },
    reduce(event, y, of) {
      if (event.name === up) return { ...of, state: "timing", since_s: event.t };
      if (event.name === down) return { ...of, state: "waiting" };
      const next = timed.reduce(event, y, of);
      const begins = of.state === "off" && next.state === "timing" && next.delay_s > 0;
      return begins ? { ...next, state: "waiting" } : next;
    },
  };
}
