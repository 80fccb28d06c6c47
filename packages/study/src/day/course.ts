import type { Cabinet } from "@startgap/cabinet";
import type { Circuit, Mode } from "@startgap/circuit";
import { type Event, type Outcome, run, type Standing } from "@startgap/ode";
import { failureOf, type StudyFailure } from "../failure.ts";
import { type Scene, sceneOf } from "../protection/scene.ts";
import { bodiesOf, smallLosses } from "./bodies.ts";
import { type Calls, callsOf, USUAL_CALLS } from "./calls.ts";
import type { DayOptions } from "./day.ts";
import { type Supplied, withDemand } from "./demand.ts";
import { type Aired, airedPlant, inOtherAir, isOtherAir } from "./derating.ts";
import type { DayTraces } from "./results.ts";
import { headingsOf, receiversOf, rowsOf, valuesOf } from "./rows.ts";
import { type SumLayout, type Summed, sumLayoutOf, summed } from "./sums.ts";
import { type Bodies, type Thermal, thermalOf } from "./thermal.ts";
import { type Watch, watchOf } from "./watch.ts";

/** Rows stand no further apart than this, and fuses see the air anew, s. */
const TICK_s = 300;
/** Events in one tick beyond which contacts chatter for good. */
const MOST_EVENTS = 4000;

/** A day that was gone through: all that its report is made of. */
export interface Told {
  readonly cabinet: Cabinet;
  readonly scene: Scene;
  readonly options: DayOptions;
  readonly supplied: Supplied;
  readonly bodies: Bodies;
  readonly thermal: Thermal;
  readonly watch: Watch;
  readonly traces: DayTraces;
  /** Indices of the fuses among the parts. */
  readonly fuses: readonly number[];
  /** What a builder wants to know of: melts, empty tanks, relief valves. */
  readonly events: readonly Event[];
  readonly sums: readonly number[];
  readonly layout: SumLayout;
  readonly kinetic_J: number;
  readonly end_s: number;
  readonly outcome: Outcome;
}

/** A day as it is gone through, tick by tick. */
export interface Course {
  /** Goes through the next tick; what stopped it, if anything did. */
  next(): StudyFailure | null;
  readonly done: () => boolean;
  readonly fraction: () => number;
  readonly told: () => Told;
}

const indices = (circuit: Circuit, is: "motor" | "fuse"): number[] =>
  circuit.parts.flatMap((p, i) => (p.is === is ? [i] : []));

export function courseOf(cabinet: Cabinet, options: DayOptions): Course {
  const supplied = withDemand(cabinet.circuit, options.demand_m3ps);
  const { circuit } = supplied;
  const scene = sceneOf({ ...cabinet, circuit });
  const end_s = (options.hours ?? 24) * 3600;
  const fuses = indices(circuit, "fuse");
  const calls = callsOf(
    circuit,
    options.delay_s,
    options.callsPerHour ?? USUAL_CALLS.perHour,
    options.outage ?? null,
  );
  const bodies = bodiesOf(cabinet, scene, options.season ?? "summer");
  const small = smallLosses(scene);
  let aired = airedPlant(scene, fuses, 25);
  const layout = sumLayoutOf(
    aired.plant,
    bodies.wound.map(({ part }) => part),
  );
  const idle_W = bodies.wound.map(({ core_S, part }) => core_S * scene.situations.idle.input_V(part) ** 2);
  const thermal = thermalOf(bodies, layout, idle_W);
  aired = airedPlant(scene, fuses, thermal.now().inside_C);
  let plant: Summed = summed(aired.plant, layout, small);
  const totals = new Array<number>(layout.at.count).fill(0);
  const known = totals.slice();
  const now = totals.slice();
  const events: Event[] = [];
  const receivers = receiversOf(aired.plant);
  const rows = rowsOf(headingsOf(circuit, bodies, fuses, receivers));

  const total = (k: number, y: readonly number[]): number => totals[k] + y[plant.first + k];
  const row = (t: number, y: readonly number[]): void => {
    for (let k = 0; k < now.length; k++) {
      const sum = total(k, y);
      now[k] = sum - known[k];
      known[k] = sum;
    }
    const warmth = thermal.advance(t, { sums: now, turning: watch.turning });
    rows.push(t, valuesOf(warmth, y, bodies, watch.phases, receivers, aired, fuses));
  };
  const watch = watchOf(() => aired.plant, {
    motors: layout.motors,
    fuses,
    heat_J: (k, y) => total(layout.at.motor_J + k, y),
    row,
    air_C: () => thermal.now().inside_C,
  });
  const begin = aired.plant.start(calls.scriptAt(0));
  let standing: Standing<Mode> = { ...begin, y: [...begin.y, ...totals] };
  const kinetic = kineticOf(circuit, aired, layout);
  const kinetic_J = kinetic(standing.y);
  let outcome: Outcome | null = null;
  row(0, standing.y);

  const toTick = (t1: number): Outcome => {
    const found = run(plant.plant, standing, t1, {
      tolerance: options.tolerance,
      maxEvents: MOST_EVENTS,
      recorder: watch.recorder,
      signal: options.signal,
    });
    standing = found.end;
    for (const event of found.events) if (told.test(event.name)) events.push(event);
    row(standing.t, standing.y);
    return found.outcome;
  };
  /** Sums begin anew, so that the solver keeps to its tolerance on each stretch; fuses see the air of now. */
  const anew = (): void => {
    for (let k = 0; k < totals.length; k++) totals[k] += standing.y[plant.first + k];
    if (isOtherAir(scene, aired, fuses, thermal.now().inside_C)) {
      const next = airedPlant(scene, fuses, thermal.now().inside_C);
      standing = inOtherAir(standing, aired, next, fuses);
      aired = next;
      plant = summed(aired.plant, layout, small);
    }
    const y = standing.y.map((value, i) => (i < plant.first ? value : 0));
    const due = isWhole(standing.t / calls.every_s);
    const mode = due ? aired.plant.rescript(standing.mode, calls.scriptAt(standing.t)) : standing.mode;
    standing = { t: standing.t, y, mode };
  };

  return {
    next() {
      if (standing.t > 0) anew();
      outcome = toTick(Math.min(end_s, nextTick(standing.t, calls)));
      return failureOf(outcome);
    },
    done: () => standing.t >= end_s || (outcome !== null && outcome.ending !== "finished"),
    fraction: () => standing.t / end_s,
    told: () => ({
      ...{ cabinet, scene, options, supplied, bodies, thermal, watch, fuses, events, layout },
      traces: rows.traces(),
      sums: totals.map((sum, k) => sum + standing.y[plant.first + k]),
      kinetic_J: kinetic(standing.y) - kinetic_J,
      end_s: standing.t,
      outcome: outcome ?? { ending: "finished", t: 0, says: "" },
    }),
  };
}

/** Infinity, where no clock calls, gives 0 only at midnight, when the script is new anyway. */
const isWhole = (count: number): boolean => count > 0 && Math.abs(count - Math.round(count)) < 1e-9;

const told = /: (melts|runs empty|relief valve lifts|shuts down)$/;

const nextTick = (t: number, { every_s }: Calls): number => {
  const tick = TICK_s * (Math.floor(t / TICK_s + 1e-9) + 1);
  return every_s === Number.POSITIVE_INFINITY
    ? tick
    : Math.min(tick, every_s * (Math.floor(t / every_s + 1e-9) + 1));
};

/** Kinetic energy of all shafts. */
function kineticOf(
  { parts }: Circuit,
  { plant }: Aired,
  { motors }: SumLayout,
): (y: readonly number[]) => number {
  return (y) =>
    motors.reduce((sum, i) => {
      const p = parts[i];
      return p.is === "motor" ? sum + 0.5 * p.inertia_kgm2 * y[plant.layout.places[i].state] ** 2 : sum;
    }, 0);
}
