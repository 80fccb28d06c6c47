import type { Cabinet } from "@startgap/cabinet";

/** Ends that the time axis may have: few, so that it does not creep while a delay is tried. */
const ENDS_s = [15, 20, 30, 45, 60, 90, 120, 180, 300, 600, 1200, 1800, 3600, 7200];
const AFTER_LAST_START_s = 9;

/**
 * Length of every story of a cabinet whose first motor to be held back waits `delay_s`: the last start and
 * nine seconds, up to the next end of the axis.
 */
export function axisEnd_s(cabinet: Cabinet, delay_s: number): number {
  const last = delay_s * spreadOf(cabinet) + AFTER_LAST_START_s;
  return ENDS_s.find((end) => end >= last) ?? ENDS_s[ENDS_s.length - 1];
}

/** The longest wait over the shortest. */
function spreadOf({ relays, circuit }: Cabinet): number {
  const stated = relays.map((relay) => relay.delay_s.nominal).filter((delay) => delay > 0);
  if (stated.length > 0) return Math.max(...stated) / Math.min(...stated);
  const motors = circuit.parts.filter((part) => part.is === "motor").length;
  return relays.length > 0 ? 1 : Math.max(1, motors - 1);
}
