import { asStated, type Circuit, type Script, type VoltageStep } from "@startgap/circuit";
import { delayFor, type Stagger, scriptFor, staggerOf } from "../stagger.ts";
import { callsByPressure } from "./demand.ts";

/** The supply goes away for a while. */
export interface Outage {
  readonly at_s: number;
  readonly length_s: number;
}

/** What works the cabinet through the day. */
export interface Calls {
  /** A new script begins at every multiple of this; Infinity where pressure switches call. */
  readonly every_s: number;
  /** The script in force from such a time on. */
  scriptAt(t: number): Script;
}

/** Calls an hour and how long each lasts of its time, where nothing in the file tells: common practice, no source. */
export const USUAL_CALLS = { perHour: 4, share: 0.5 } as const;
/** Share of the time between two calls that passes first: relays that only wait for power have closed by then. */
const BEFORE = 0.1;

/**
 * Pressure switches where there are any: the file's own script. Else every motor's own contact is closed some times an
 * hour, those that are held back by their delay later, and all are opened together.
 *
 * @param delay_s stagger asked for; the file's own when undefined
 */
export function callsOf(
  circuit: Circuit,
  delay_s: number | undefined,
  perHour: number,
  outage: Outage | null,
): Calls {
  const stagger = staggerOf(circuit);
  const own = delay_s === undefined ? asStated : scriptFor(stagger, delay_s);
  const supply = supplySteps(outage);
  if (callsByPressure(circuit)) {
    const relays: Script = { delay_s: own.delay_s, connects_s: () => 0 };
    return { every_s: Number.POSITIVE_INFINITY, scriptAt: (t) => ({ ...relays, supply: left(supply, t) }) };
  }
  const every_s = 3600 / perHour;
  const waits = waitsOf(stagger, delay_s);
  return {
    every_s,
    scriptAt: (t) => ({
      delay_s: own.delay_s,
      connects_s: (motor) => t + BEFORE * every_s + (waits.get(motor) ?? 0),
      opens_s: () => t + (BEFORE + USUAL_CALLS.share) * every_s,
      supply: left(supply, t),
    }),
  };
}

function waitsOf(stagger: Stagger, delay_s: number | undefined): ReadonlyMap<string, number> {
  if (stagger.stated_s !== null) {
    const scale = delay_s === undefined ? 1 : delay_s / stagger.stated_s;
    return new Map([...stagger.closings_s].map(([motor, closing]) => [motor, scale * closing]));
  }
  const by = scriptFor(stagger, delayFor(stagger, delay_s));
  return new Map(stagger.motors.map((motor) => [motor, by.connects_s(motor)]));
}

const supplySteps = (outage: Outage | null): VoltageStep[] =>
  outage === null
    ? []
    : [
        { at_s: outage.at_s, factor: 0 },
        { at_s: outage.at_s + outage.length_s, factor: 1 },
      ];

/** Steps still to come: a script that is set later must not repeat what has been. */
const left = (steps: readonly VoltageStep[], t: number): VoltageStep[] =>
  steps.filter(({ at_s }) => at_s > t);
