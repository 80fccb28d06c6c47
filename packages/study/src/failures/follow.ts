import { type Circuit, type CircuitPlant, type Mode, plantOf } from "@startgap/circuit";
import { type Event, type Recorder, run, type Standing } from "@startgap/ode";
import { failureOf, type StudyFailure } from "../failure.ts";
import { replaced } from "./alter.ts";
import { chokeLaw, settledChoke, type Thevenin } from "./choke.ts";
import { type LoneWinding, loneLoad } from "./windings.ts";

/** A stretch of time after a failure. */
export interface Followed {
  readonly plant: CircuitPlant;
  readonly end: Standing<Mode>;
  readonly events: readonly Event[];
  /** True when contacts still opened and closed when it was given up. */
  readonly chatters: boolean;
}

export interface Following {
  readonly until_s: number;
  readonly tolerance: number;
  /** Sees every state on the way, with the plant that solves it. */
  readonly watch: (plant: CircuitPlant, t: number, y: readonly number[], mode: Mode) => void;
  readonly signal?: { readonly aborted: boolean };
}

/** Events after which a failed cabinet is taken to chatter without end. */
const MOST_EVENTS = 160;

/** Follows a cabinet whose parts are what they are. */
export function follow(
  plant: CircuitPlant,
  from: Standing<Mode>,
  f: Following,
  events = MOST_EVENTS,
): Followed | StudyFailure {
  const recorder: Recorder<Mode> = {
    interior: true,
    sample: (t, y, mode) => f.watch(plant, t, y, mode),
  };
  const done = run(plant, from, f.until_s, {
    tolerance: f.tolerance,
    maxEvents: events,
    recorder,
    signal: f.signal,
  });
  return (
    failureOf(done.outcome) ?? {
      plant,
      end: done.end,
      events: done.events,
      chatters: done.outcome.ending === "endless chatter",
    }
  );
}

/** Shortest and longest stretch over which the winding's admittance is held, s, and the change it may take. */
const SHORTEST_s = 0.01;
const LONGEST_s = 1;
const CALM = 0.01;

/**
 * Follows a cabinet with one winding of an autotransformer open. The winding that is left saturates, so its
 * admittance is settled with the network over and over: every 10 ms while it changes, more rarely once it does not.
 */
export function followLone(
  circuit: Circuit,
  fedBy: string,
  lone: LoneWinding,
  from: Standing<Mode>,
  f: Following,
): Followed | StudyFailure {
  const frequency_Hz = plantOf(circuit).layout.places[0].frequency_Hz;
  const law = chokeLaw(lone, frequency_Hz);
  const altered = (b: number): Circuit => replaced(circuit, loneLoad(fedBy, lone, b));
  const settle = (standing: Standing<Mode>, before: number): number =>
    settledSusceptance((b) => plantOf(altered(b)), lone, law, standing, before);
  // What happens at the very moment, a contactor that pulls in, comes before the winding has settled.
  const opening = follow(plantOf(circuit), from, { ...f, until_s: from.t, watch: () => {} });
  if ("failed" in opening) return opening;
  let b = settle(opening.end, lone.susceptance_S);
  let stretch = SHORTEST_s;
  let at: Followed = { ...opening, plant: plantOf(altered(b)) };
  while (at.end.t < f.until_s) {
    const until_s = Math.min(f.until_s, at.end.t + stretch);
    const next = follow(
      at.plant,
      at.end,
      { ...f, until_s, watch: once(f.watch) },
      MOST_EVENTS - at.events.length,
    );
    if ("failed" in next) return next;
    const events = [...at.events, ...next.events];
    const settled = settle(next.end, b);
    const calm = Math.abs(settled - b) <= CALM * b && next.events.length === 0;
    stretch = calm ? Math.min(LONGEST_s, 2 * stretch) : SHORTEST_s;
    b = settled;
    at = { plant: plantOf(altered(b)), end: next.end, events, chatters: next.chatters };
    if (next.chatters || events.length >= MOST_EVENTS) return { ...at, chatters: true };
  }
  return at;
}

/** Only the first state of a stretch stands settled with the winding. */
function once(watch: Following["watch"]): Following["watch"] {
  let fresh = true;
  return (...state) => {
    if (fresh) watch(...state);
    fresh = false;
  };
}

/** Walks until loads that hold their current or power agree with the winding. */
const MOST_ROUNDS = 8;
const AGREED = 1e-9;

function settledSusceptance(
  plantFor: (b: number) => CircuitPlant,
  lone: LoneWinding,
  law: (v: number) => number,
  standing: Standing<Mode>,
  before: number,
): number {
  let b = before;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const net = seenBy(plantFor, lone, standing, b);
    if (net === null) return b;
    const next = settledChoke(law, net).susceptance_S;
    const change = Math.abs(next - b);
    b = next;
    if (change <= AGREED * b) return b;
  }
  return b;
}

/** What the winding stands on, from its voltage at two susceptances; null where nothing feeds it. */
function seenBy(
  plantFor: (b: number) => CircuitPlant,
  lone: LoneWinding,
  { y, mode }: Standing<Mode>,
  b: number,
): Thevenin | null {
  const voltage = (susceptance: number): readonly [number, number] => {
    const plant = plantFor(susceptance);
    const walk = plant.solve(y, mode);
    const i = plant.layout.circuit.parts.findIndex((p) => p.name === lone.name);
    const node = plant.layout.told[i];
    return [walk.vr[node], walk.vi[node]];
  };
  const c = b > 0 ? 0.5 * b : 1e-6;
  const [v1, v2] = [voltage(b), voltage(c)];
  // V (1 - j b Z) = Vth at both, hence j Z (b v1 - c v2) = v1 - v2.
  const dr = b * v1[0] - c * v2[0];
  const di = b * v1[1] - c * v2[1];
  const square = dr * dr + di * di;
  if (square === 0) return null;
  const [nr, ni] = [v1[0] - v2[0], v1[1] - v2[1]];
  const jz = [(nr * dr + ni * di) / square, (ni * dr - nr * di) / square];
  const [r, x] = [jz[1], -jz[0]];
  const own = [v1[0] - b * (jz[0] * v1[0] - jz[1] * v1[1]), v1[1] - b * (jz[0] * v1[1] + jz[1] * v1[0])];
  return { voltage_V: Math.hypot(own[0], own[1]), r_ohm: r, x_ohm: x };
}
