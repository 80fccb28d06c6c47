import type { Event } from "@startgap/ode";
import {
  eventName,
  type LimitedSource,
  type PartGuard,
  type PartModel,
  type Placement,
  plain,
} from "./model.ts";
import { type SupplyMode, type SupplyParameters, voltageSteps } from "./supply.ts";

/** What an inverter gives, and for how long. */
export interface InverterSource {
  readonly is: "inverter";
  readonly continuous_A: number;
  /** It gives no more than this; above it the voltage falls. */
  readonly limit_A: number;
  /** How long it gives more than `continuous_A`. */
  readonly surge_s: number;
  /** How long it then holds the voltage down, at `continuous_A`, before it shuts down. */
  readonly stops_s: number;
}

export interface InverterMode extends SupplyMode {
  readonly load: "within its rating" | "surging" | "held at its rating" | "shut down";
  /** Since when. */
  readonly since_s: number;
  /** Surge time that was used up by then. */
  readonly used_s: number;
  /** True while the voltage is held down at `limit_A`. */
  readonly limiting: boolean;
}

/** A current this much below a threshold counts as below it: no bounce at the threshold itself. */
const JUST_BELOW = 1 - 1e-9;

/**
 * An inverter: stiff up to its current limit, and no more current than that.
 *
 * The voltage stays at its rated value while the network draws no more than the limit, and is lowered beyond it until
 * the network draws just the limit. More than the continuous current uses up the surge time; time within the rating
 * gives as much of it back. Once it is used up the limit is the continuous current, and when that has held the voltage
 * down for `stops_s`, the inverter shuts down for the rest of the story.
 *
 * Limitations: no output impedance and no lag of its control; the limit acts on the rms current, while a real
 * one clips the peaks; surge time comes back as fast as it went (a real one counts heat).
 *
 * Source: common practice, no source. Checked by packages/circuit/test/inverter.test.ts.
 */
export function inverterModel(
  p: SupplyParameters,
  source: InverterSource,
  place: Placement,
): PartModel<InverterMode> {
  const { part } = place;
  const [out] = place.out;
  const events = surgeEvents(p.name, source);
  let mode: InverterMode = {
    ...{ factor: 1, steps: [] },
    ...{ load: "within its rating", since_s: 0, used_s: 0, limiting: false },
  };
  let volts = p.voltage_V;
  let asked = 0;
  const limited: LimitedSource = {
    stiff_V: () => (mode.load === "shut down" ? 0 : p.voltage_V * mode.factor),
    limit_A: () => (mode.load === "held at its rating" ? source.continuous_A : source.limit_A),
    give(given) {
      volts = given;
    },
    asked(amperes) {
      asked = amperes;
    },
  };
  return {
    ...plain,
    start: { y: [], mode },
    limited,
    enter(next) {
      mode = next;
    },
    fold: () => {},
    unfold(w) {
      w.vr[out] = volts;
      w.vi[out] = 0;
      w.ir[part] = w.gr[out] * volts;
      w.ii[part] = w.gi[out] * volts;
    },
    guards: (of) => events.guards(of),
    guardValues(_, __, values, offset) {
      if (mode.load === "within its rating") values[offset] = asked - source.continuous_A;
      if (mode.load === "held at its rating") values[offset] = asked - source.continuous_A * JUST_BELOW;
      if (mode.load !== "surging") return;
      values[offset] = asked - source.continuous_A * JUST_BELOW;
      values[offset + 1] = asked - source.limit_A * (mode.limiting ? JUST_BELOW : 1);
    },
    scheduled: (of) => events.scheduled(of),
    reduce: (event, _, of) => events.reduce(event, of),
    conducts: (of) => of.load !== "shut down",
    power: (w) => ({ lost_W: 0, shaft_W: 0, stored_W: 0, given_W: volts * w.ir[part] }),
    scripted: events.scripted,
  };
}

/** The events of an inverter, and what they make of its mode. */
export function surgeEvents(name: string, { surge_s, stops_s }: InverterSource) {
  const steps = voltageSteps(name);
  const surges = eventName(name, "gives more than its rating");
  const eases = eventName(name, "is back within its rating");
  const reaches = eventName(name, "reaches its current limit");
  const leaves = eventName(name, "leaves its current limit");
  const ends = eventName(name, "surge time is up");
  const stops = eventName(name, "shuts down");
  const guard = (what: string, direction: PartGuard["direction"]): PartGuard => ({
    name: what,
    direction,
    level: true,
    electrical: true,
  });
  const [rising, falling] = [guard(surges, "rising"), guard(eases, "falling")];
  const [limit, unlimit] = [guard(reaches, "rising"), guard(leaves, "falling")];
  const usedBy = (of: InverterMode, t: number): number => {
    if (of.load === "within its rating") return Math.max(0, of.used_s - (t - of.since_s));
    return of.load === "surging" ? Math.min(surge_s, of.used_s + (t - of.since_s)) : surge_s;
  };
  const due = (of: InverterMode): Event[] => {
    if (of.load === "surging") return [{ name: ends, t: of.since_s + (surge_s - of.used_s) }];
    return of.load === "held at its rating" ? [{ name: stops, t: of.since_s + stops_s }] : [];
  };
  return {
    scripted: steps.scripted,
    guards(of: InverterMode): readonly PartGuard[] {
      if (of.load === "within its rating") return [rising];
      if (of.load === "surging") return [falling, of.limiting ? unlimit : limit];
      return of.load === "shut down" ? [] : [falling];
    },
    scheduled: (of: InverterMode): readonly Event[] => [...due(of), ...steps.scheduled(of)],
    reduce(event: Event, of: InverterMode): InverterMode {
      if (event.name === steps.changes) return steps.next(of);
      if (event.name === reaches) return { ...of, limiting: true };
      if (event.name === leaves) return { ...of, limiting: false };
      const since = { since_s: event.t, used_s: usedBy(of, event.t), limiting: false };
      if (event.name === surges) return { ...of, ...since, load: "surging" };
      if (event.name === eases) return { ...of, ...since, load: "within its rating" };
      return { ...of, ...since, load: event.name === stops ? "shut down" : "held at its rating" };
    },
  };
}

const MOST_TRIALS = 200;
/** The limit counts as met at this relative difference. */
const MET = 1e-12;

/**
 * Lowers the voltage of a limited source until the network draws no more than its limit.
 *
 * The current at the stiff voltage is tried first. Beyond the limit, zero volts (no current) and the stiff voltage
 * bracket an answer, and every trial keeps it bracketed: false position, whose first trial is exact for a
 * network of impedances. An end that stays while the other moves twice counts half (the Illinois rule), and a
 * bracket that three trials have not halved is halved. Loads that hold their power draw more as the voltage falls; a
 * plain fixed point would run away on them.
 *
 * @param currentAt solves the network at a source voltage and tells the current, A; called last with the answer
 *
 * Source: G. Dahlquist and A. Bjorck, Numerical Methods, section 6.2.2 (from memory). Checked by
 * packages/circuit/test/inverter.test.ts.
 */
export function foldBack(source: LimitedSource, currentAt: (volts: number) => number): void {
  const limit = source.limit_A();
  let [low, high] = [0, source.stiff_V()];
  let [under, over] = [-limit, currentAt(high) - limit];
  source.asked(over + limit);
  if (over <= 0) return;
  let width = high;
  let moved = 0;
  for (let trial = 1; trial <= MOST_TRIALS; trial++) {
    const halve = trial % 3 === 0 && high - low > width / 2;
    if (trial % 3 === 0) width = high - low;
    const volts = halve ? (low + high) / 2 : low + ((high - low) * under) / (under - over);
    const excess = currentAt(volts) - limit;
    if (Math.abs(excess) <= MET * limit) return;
    if (excess > 0) {
      [high, over] = [volts, excess];
      if (moved === 1) under /= 2;
    } else {
      [low, under] = [volts, excess];
      if (moved === -1) over /= 2;
    }
    moved = excess > 0 ? 1 : -1;
    if (high - low <= Number.EPSILON * high) break;
  }
  currentAt(low);
}
