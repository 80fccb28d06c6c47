import { arc, lookoutsOf } from "./arc.ts";
import { SAME_MOMENT_s } from "./locate.ts";
import { cancelled, chattering, finished, type Outcome, stopped } from "./outcome.ts";
import type { Event, Plant } from "./plant.ts";
import type { Recorder } from "./record.ts";
import type { ArcSettings, Counts, Method } from "./settings.ts";

/** Where a run starts or stands: enough to go on from. */
export interface Standing<M> {
  readonly t: number;
  readonly y: readonly number[];
  readonly mode: M;
}

export interface RunOptions<M> {
  /**
   * How steps are taken: "extrapolation" when silent, in few long steps; "runge-kutta" where something is read many
   * times in every step and steps are short, as of a wave.
   */
  readonly method?: Method;
  /** Relative and absolute tolerance of every state; 1e-6 when silent. */
  readonly tolerance?: number;
  /** First step of every arc, s; the extrapolation takes at least 1e-4. */
  readonly initialStep?: number;
  readonly maxStep?: number;
  /** Steps in one arc. */
  readonly maxSteps?: number;
  /** Events in the whole run before it is called endless chatter. */
  readonly maxEvents?: number;
  readonly recorder?: Recorder<M>;
  /** Ascending times at which the state is handed out, read off the dense output. */
  readonly snapshots?: readonly number[];
  readonly onSnapshot?: (t: number, y: readonly number[], mode: M) => void;
  readonly signal?: { readonly aborted: boolean };
  readonly onProgress?: (t: number) => void;
}

export interface Run<M> {
  readonly end: Standing<M>;
  readonly outcome: Outcome;
  readonly events: readonly Event[];
  readonly count: Readonly<Counts>;
}

/** Events at one moment that are never chatter, and how many more every guard may add. */
const EVENTS_AT_ONCE = 100;
const EVENTS_A_GUARD = 20;

const tooManyAtOnce = <M>(plant: Plant<M>, mode: M, atOnce: number): boolean =>
  atOnce > EVENTS_AT_ONCE && atOnce > EVENTS_AT_ONCE + EVENTS_A_GUARD * plant.guards(mode).length;

/**
 * Runs a plant from a standing to `tEnd`: smooth arcs, joined at events.
 *
 * Guards are located to 1e-9 s or better, on their far side. Events within 1e-9 s of each other count as
 * simultaneous and are reduced in the order of their names, so that the order of declaration never changes
 * an answer (a guard that passes just after a known time comes after it all the same); one that its
 * predecessor made meaningless (its guard or time is gone) is dropped. A passage and return within less than
 * an eleventh of a step, or a twentieth of the longest step allowed, may be missed. Known times are reached exactly. The recorder
 * sees both sides of every jump.
 *
 * @returns the last standing, how it ended (never thrown), the events in order, and the work done
 * @throws only what the plant or the recorder throws
 *
 * Checked by packages/ode/test (run, timers, record, snapshots, glance, methods, convergence) and tests/published/ode-*.
 */
export function run<M>(
  plant: Plant<M>,
  start: Standing<M>,
  tEnd: number,
  options: RunOptions<M> = {},
): Run<M> {
  const count: Counts = { evaluations: 0, steps: 0, arcs: 0, events: 0 };
  const settings = settingsOf(options, count);
  const happened: Event[] = [];
  const maxEvents = options.maxEvents ?? 10_000;
  let { t, y, mode } = start;
  let atOnce = 0;
  const done = (outcome: Outcome): Run<M> => ({ end: { t, y, mode }, outcome, events: happened, count });
  const lookouts = lookoutsOf(plant, mode, y.length, settings);
  settings.recorder?.sample(t, y, mode);
  if (settings.snapshots.includes(t)) settings.onSnapshot(t, y, mode);
  for (;;) {
    const timer = nextTime(plant, mode, tEnd);
    const end = arc(plant, t, y, mode, Math.max(t, timer), settings, lookouts);
    atOnce = end.t > t + SAME_MOMENT_s ? 0 : atOnce;
    ({ t, y } = end);
    if (end.failure !== null) return done(end.failure);
    if (end.cancelled) return done(cancelled(t));
    const due = dueAt(plant, mode, t, tEnd, end.guards);
    if (due.length === 0 && t >= tEnd) return done(finished(t));
    for (const event of due) {
      if (!stillMeant(plant, mode, event)) continue;
      happened.push(event);
      count.events++;
      const jump = plant.reduce(event, y, mode);
      if (jump === "stop") return done(stopped(t, event.name));
      ({ y, mode } = jump);
      atOnce++;
      if (count.events >= maxEvents || tooManyAtOnce(plant, mode, atOnce)) {
        return done(chattering(t, event.name, count.events));
      }
    }
    if (due.length > 0) settings.recorder?.sample(t, y, mode);
    if (t >= tEnd && due.length === 0) return done(finished(t));
  }
}

function settingsOf<M>(options: RunOptions<M>, count: Counts): ArcSettings<M> {
  const { signal, onProgress } = options;
  return {
    method: options.method ?? "extrapolation",
    tolerance: options.tolerance ?? 1e-6,
    initialStep: options.initialStep ?? 0.1,
    maxStep: options.maxStep ?? Number.POSITIVE_INFINITY,
    maxSteps: options.maxSteps ?? 20_000,
    recorder: options.recorder ?? null,
    snapshots: options.snapshots ?? [],
    onSnapshot: options.onSnapshot ?? (() => {}),
    cancelled: (t) => {
      onProgress?.(t);
      return signal?.aborted ?? false;
    },
    count,
  };
}

function nextTime<M>(plant: Plant<M>, mode: M, tEnd: number): number {
  let next = tEnd;
  for (const event of plant.scheduled(mode)) next = Math.min(next, event.t);
  return next;
}

/** Every event of this moment, by name. */
function dueAt<M>(
  plant: Plant<M>,
  mode: M,
  t: number,
  tEnd: number,
  guards: readonly { readonly name: string }[],
): Event[] {
  const due: Event[] = guards.map(({ name }) => ({ name, t }));
  for (const { name, t: at } of plant.scheduled(mode)) {
    if (at <= Math.min(t + SAME_MOMENT_s, tEnd)) due.push({ name, t });
  }
  return due.sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));
}

function stillMeant<M>(plant: Plant<M>, mode: M, event: Event): boolean {
  if (plant.raises !== undefined) return plant.raises(event, mode);
  return (
    plant.guards(mode).some(({ name }) => name === event.name) ||
    plant.scheduled(mode).some(({ name, t }) => name === event.name && t <= event.t + SAME_MOMENT_s)
  );
}
