import type { Event } from "@startgap/ode";
import type { ControlPlacement } from "./controls.ts";
import { eventName, type PartGuard, type PartModel, plain } from "./model.ts";

/** An air receiver: pressed by the compressors that deliver into it, drawn down by demand. */
export interface ReceiverParameters {
  readonly is: "receiver";
  readonly name: string;
  readonly volume_m3: number;
  /** Gauge pressure when a story begins. */
  readonly pressure_Pa: number;
  /** Free air drawn through the day, the same every day; the first stands at 0 s. */
  readonly demand: readonly DemandStep[];
  /** Gauge pressure at which its relief valve lifts; null: none. */
  readonly relief_Pa: number | null;
}

/** From this time of day on. */
export interface DemandStep {
  readonly from_s: number;
  readonly flow_m3ps: number;
}

export interface ReceiverMode {
  /** Index of the demand in force, and when the next one comes; Infinity when there is but one. */
  readonly step: number;
  readonly next_s: number;
  /** Held at nothing by a demand that finds no air, or at most by its relief valve. */
  readonly held: "empty" | "relieved" | null;
}

/** Standard atmosphere, the pressure at which free air is counted. Source: ISO 2533. */
const ATMOSPHERE_Pa = 101_325;
const DAY_s = 86_400;
/** A relief valve shuts again a tenth below its setting (common practice, no source). */
const RESEATS_AT = 0.9;
/** Gauge pressure that counts as air being there again. */
const SOME_AIR_Pa = 100;

interface Compressed {
  /** State of the motor's speed. */
  readonly state: number;
  /** Free air a rad/s. */
  readonly perSpeed: number;
  /** False while a pressure switch holds its unloader open: its air goes back into the room. */
  readonly delivers: () => boolean;
}

/**
 * Gauge pressure p of a receiver of volume V at constant temperature:
 *
 *     V dp/dt = pa (sum of what compressors deliver - demand)
 *
 * so that pumping up from p1 to p2 takes V (p2 - p1)/(pa Q), with Q the free air delivered, less the demand. A
 * compressor delivers in proportion to its speed, and nothing while its pressure switch holds its unloader open.
 * Between events at steady speeds p is a straight line: it coasts exactly, and a day costs no more than its starts.
 *
 * Limitations: isothermal; free-air delivery does not fall as the pressure rises.
 *
 * Source: Compressed Air and Gas Handbook, pump-up formula (from memory). Checked by
 * packages/circuit/test/receiver.test.ts and tests/published/receivers.
 */
export function receiverModel(p: ReceiverParameters, place: ControlPlacement): PartModel<ReceiverMode> {
  const { state, index } = place;
  const { closed } = place.contacts;
  const rise = ATMOSPHERE_Pa / p.volume_m3;
  const compressors = compressorsInto(p.name, place);
  const events = receiverEvents(p);
  const threshold = { normal: 0, empty: SOME_AIR_Pa, relieved: RESEATS_AT * (p.relief_Pa ?? 0) };
  let mode: ReceiverMode = { step: 0, next_s: nextChange(p, 0, 0), held: null };
  const start = { y: [p.pressure_Pa], mode };
  const rate = (y: readonly number[]): number => {
    let flow = -p.demand[mode.step].flow_m3ps;
    for (const { state: speed, perSpeed, delivers } of compressors) {
      if (delivers()) flow += perSpeed * y[speed];
    }
    if (mode.held === "empty") return rise * Math.max(0, flow);
    return rise * (mode.held === "relieved" ? Math.min(0, flow) : flow);
  };
  return {
    ...plain,
    stateNames: [`pressure of ${p.name}`],
    start,
    enter(next) {
      mode = next;
      closed[index] = 0;
    },
    fold: () => {},
    unfold: () => {},
    rate(_, y, rates) {
      rates[state] = rate(y);
    },
    guards: events.guards,
    guardValues(_, y, values, offset) {
      if (mode.held !== null) values[offset] = y[state] - threshold[mode.held];
      else {
        values[offset] = y[state];
        if (p.relief_Pa !== null) values[offset + 1] = y[state] - p.relief_Pa;
      }
    },
    scheduled: (of) =>
      of.next_s === Number.POSITIVE_INFINITY ? [] : [{ name: events.changes, t: of.next_s }],
    reduce(event, y, of) {
      if (event.name === events.runsEmpty) y[state] = 0;
      return events.reduce(event, of);
    },
    drive: (_, y) => rate(y),
    coast(end, change, lambda, y0, dt, y) {
      y[state] = y0[state] + end * dt - (change * Math.expm1(-lambda * dt)) / lambda;
    },
  };
}

function compressorsInto(receiver: string, place: ControlPlacement): Compressed[] {
  return place.circuit.parts.flatMap((part) => {
    if (part.is !== "motor" || part.compressor?.delivers?.receiver !== receiver) return [];
    const { unloader } = part.compressor;
    const { flow_m3ps, atSpeed_radps } = part.compressor.delivers;
    const valve = typeof unloader === "string" ? -1 : place.contacts.indexOf(unloader.switch);
    const { closed } = place.contacts;
    const delivers = (): boolean => valve < 0 || closed[valve] === 1;
    return [{ state: place.stateOf(part.name), perSpeed: flow_m3ps / atSpeed_radps, delivers }];
  });
}

/** When the demand after this one comes into force, on the story's clock. */
function nextChange(p: ReceiverParameters, step: number, now_s: number): number {
  if (p.demand.length < 2) return Number.POSITIVE_INFINITY;
  const midnight = Math.floor(now_s / DAY_s) * DAY_s;
  return step + 1 < p.demand.length ? midnight + p.demand[step + 1].from_s : midnight + DAY_s;
}

function receiverEvents(p: ReceiverParameters) {
  const is = (what: string): string => eventName(p.name, what);
  const guard = (what: string, direction: PartGuard["direction"]): PartGuard => ({
    name: is(what),
    direction,
    level: true,
    electrical: false,
  });
  const runsEmpty = guard("runs empty", "falling");
  const fills = guard("has air again", "rising");
  const lifts = guard("relief valve lifts", "rising");
  const reseats = guard("relief valve shuts", "falling");
  const normal = p.relief_Pa === null ? [runsEmpty] : [runsEmpty, lifts];
  const held = { empty: [fills], relieved: [reseats] };
  const changes = is("demand changes");
  return {
    changes,
    runsEmpty: runsEmpty.name,
    guards: (of: ReceiverMode): readonly PartGuard[] => (of.held === null ? normal : held[of.held]),
    reduce(event: Event, of: ReceiverMode): ReceiverMode {
      if (event.name === runsEmpty.name) return { ...of, held: "empty" };
      if (event.name === lifts.name) return { ...of, held: "relieved" };
      if (event.name !== changes) return { ...of, held: null };
      const step = (of.step + 1) % p.demand.length;
      return { ...of, step, next_s: nextChange(p, step, event.t) };
    },
  };
}
