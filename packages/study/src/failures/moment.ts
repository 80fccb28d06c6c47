import {
  type CircuitPlant,
  currentInto,
  type Mode,
  magnitude,
  meltAfter,
  plantOf,
  type Script,
} from "@startgap/circuit";
import type { Event } from "@startgap/ode";
import { isFailure, type StudyFailure } from "../failure.ts";
import { carriedOver, switchedOn } from "./carry.ts";
import { type Followed, follow, followLone } from "./follow.ts";
import { instantOf, nodesOf, watchedOf } from "./instant.ts";
import type { Failure } from "./kinds.ts";
import type { FailureEvent, FailureMoment } from "./results.ts";
import type { Sound } from "./sound.ts";
import { tellsOf } from "./tells.ts";

/** How long a failed cabinet is followed from a running one, s: past every lag, run-down and stall. */
const FOLLOWED_s = 20;
/** Events told of one moment. */
const MOST_TOLD = 6;

/** A moment, and the parts that have voltage between their wires at its end. */
export interface Seen {
  readonly told: FailureMoment;
  readonly live: ReadonlySet<string>;
}

/**
 * One failure seen from one situation, by the same circuit: what it does at once, what it has come to, what was
 * worst between.
 */
export function momentOf(
  sound: Sound,
  failure: Failure,
  moment: FailureMoment["moment"],
): Seen | StudyFailure {
  const watched = watchedOf(sound.circuit);
  const highest = watched.map(() => 0);
  const plant = plantOf(failure.circuit);
  const running = moment === "while running";
  const script = scriptOf(sound, failure);
  const from = running
    ? carriedOver(sound.plant, sound.running, plant, failure.open, script)
    : switchedOn(plant, failure.open, script);
  const nodes = nodesOf(plant, watched);
  let first: FailureMoment["first"] | null = null;
  const lone = failure.lone?.name ?? null;
  const f = {
    until_s: from.t + (running ? FOLLOWED_s : sound.start_s),
    tolerance: sound.tolerance,
    signal: sound.signal,
    watch: (at: CircuitPlant, t: number, y: readonly number[], mode: Mode): void => {
      if (t === from.t) first = { ...instantOf(at, watched, { t, y, mode }, lone), at_s: 0 };
      const walk = at.solve(y, mode);
      nodes.forEach((node, k) => {
        highest[k] = Math.max(highest[k], magnitude(walk, node));
      });
    },
  };
  const followed =
    failure.lone === null
      ? follow(plant, from, f)
      : followLone(failure.circuit, failure.part, failure.lone, from, f);
  if (isFailure(followed)) return followed;
  const end = instantOf(followed.plant, watched, followed.end, lone);
  const last = { ...end, at_s: end.at_s - from.t };
  const next = nextOf(followed.events, from.t);
  const chatters = followed.chatters ? chattering(followed.events) : null;
  const bare = {
    moment,
    first: first ?? last,
    last,
    highest_V: highest,
    next: next.slice(0, MOST_TOLD),
    chatters,
    meltsLater: chatters === null ? laterMelting(followed, from.t) : null,
  };
  return { told: { ...bare, tells: tellsOf(bare) }, live: liveIn(followed) };
}

/** The story goes on as before, with the failed contact stuck. */
const scriptOf = (sound: Sound, { part, stuck }: Failure): Script =>
  stuck === null ? sound.script : { ...sound.script, stuck: (name) => (name === part ? stuck : null) };

/** Less than this between two wires is no voltage, V. */
const NONE_V = 1;

function liveIn({ plant, end }: Followed): ReadonlySet<string> {
  const walk = plant.solve(end.y, end.mode);
  const { circuit, told } = plant.layout;
  return new Set(circuit.parts.flatMap((p, i) => (magnitude(walk, told[i]) > NONE_V ? [p.name] : [])));
}

/** What is worth telling of a failure: things that open, stop or come back, not the ordinary course of a start. */
const TOLD = ["melts", "opens", "comes to rest", "start switch closes"];

const split = (event: Event): readonly [string, string] => {
  const cut = event.name.lastIndexOf(": ");
  return [event.name.slice(0, cut), event.name.slice(cut + 2)];
};

function nextOf(events: readonly Event[], from_s: number): FailureEvent[] {
  return events.flatMap((event) => {
    const [part, what] = split(event);
    return TOLD.includes(what) ? [{ at_s: event.t - from_s, part, what }] : [];
  });
}

function chattering(events: readonly Event[]): string | null {
  const opening = events.filter((event) => event.name.endsWith(": opens"));
  return opening.length === 0 ? null : split(opening[opening.length - 1])[0];
}

/** Longest time ahead that a fuse is asked about, s: what has not melted in a day does not melt. */
const LONGEST_s = 86_400;

/** The first fuse that the last current melts from the heat it has, in closed form; null when none does. */
function laterMelting({ plant, end }: Followed, from_s: number): FailureMoment["meltsLater"] {
  const walk = plant.solve(end.y, end.mode);
  let soonest: FailureMoment["meltsLater"] = null;
  plant.layout.circuit.parts.forEach((p, i) => {
    if (p.is !== "fuse" || p.melt === null || !plant.models[i].conducts(end.mode[i])) return;
    const { state } = plant.layout.places[i];
    const heat = p.melt.share.map((_, k) => end.y[state + k]);
    const { melt } = p;
    const current = currentInto(walk, i);
    const fraction = (t: number): number => meltAfter(melt, heat, current, t).reduce((sum, x) => sum + x, 0);
    if (fraction(LONGEST_s) < 1) return;
    const at_s = end.t - from_s + crossing(fraction);
    if (soonest === null || at_s < soonest.at_s) soonest = { part: p.name, at_s };
  });
  return soonest;
}

/** Where a rising melt fraction passes 1, by halving on a logarithmic scale. */
function crossing(fraction: (t: number) => number): number {
  let [low, high] = [1e-3, LONGEST_s];
  for (let count = 0; count < 60; count++) {
    const middle = Math.sqrt(low * high);
    if (fraction(middle) < 1) low = middle;
    else high = middle;
  }
  return high;
}
