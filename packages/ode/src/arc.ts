import { coast } from "./coast.ts";
import { type Follower, follower } from "./follow.ts";
import { type Glance, glance } from "./glance.ts";
import { type Moved, standing } from "./moved.ts";
import type { Outcome } from "./outcome.ts";
import type { Guard, Plant } from "./plant.ts";
import type { ArcSettings } from "./settings.ts";
import { closeSteps, longSteps } from "./steps.ts";
import { type Watch, watch } from "./watch.ts";

/** How a smooth stretch ended: at its end, at guards, cancelled, or in failure. */
export interface ArcEnd {
  readonly t: number;
  readonly y: readonly number[];
  readonly guards: readonly Guard[];
  readonly cancelled: boolean;
  readonly failure: Outcome | null;
}

/** What looks out for guards, records and snapshots: made once a run, for to make it anew costs as much as a step. */
export interface Lookouts<M> {
  readonly watch: Watch<M>;
  readonly glance: Glance<M>;
  readonly follow: Follower<M>;
}

export function lookoutsOf<M>(
  plant: Plant<M>,
  mode: M,
  dimension: number,
  settings: ArcSettings<M>,
): Lookouts<M> {
  const guarded = watch(plant, mode, dimension);
  return {
    watch: guarded,
    glance: glance(plant, mode, dimension),
    follow: follower(guarded.advance, settings, mode, dimension),
  };
}

/**
 * Integrates one smooth stretch from `t0` until `tEnd` or until a guard passes, whichever comes first.
 *
 * The steps are those of the method asked for. Where nothing inside a step is asked for, they are taken without
 * dense output and only glanced at; a suspect step is taken again with dense output, which is valid only while it is
 * visited: a passage is located there and then and ends the stretch. When the plant has come to rest, its own closed
 * form takes over for the remainder.
 *
 * Assumes a problem that is not stiff: both methods are explicit.
 */
export function arc<M>(
  plant: Plant<M>,
  t0: number,
  y0: readonly number[],
  mode: M,
  tEnd: number,
  settings: ArcSettings<M>,
  lookouts: Lookouts<M>,
): ArcEnd {
  settings.count.arcs++;
  const { follow } = lookouts;
  const already = lookouts.watch.begin(t0, y0, mode);
  if (already.length > 0 || tEnd <= t0) return { ...ended(standing(t0, y0, 0)), guards: already };
  follow.begin(t0, mode);
  const guarded = plant.guards(mode).length > 0;
  const inside = settings.recorder?.interior === true;
  let moved = standing(t0, y0, settings.initialStep);
  moved.flow = plant.rest?.(t0, y0, mode, settings.tolerance) ?? null;
  for (let tries = 0; moved.flow === null && !isOver(moved, tEnd); ) {
    if (inside || follow.next() <= Math.min(tEnd, moved.t + settings.maxStep)) {
      moved = closeSteps(plant, moved, mode, tEnd, settings, follow, inside || guarded);
    } else {
      const until = Math.min(tEnd, follow.next());
      moved = glancedSteps(plant, moved, mode, until, settings, lookouts, moved.t === t0);
    }
    if (moved.failure?.ending === "not finite" && tries++ < RETRIES) moved = withShorterSteps(moved);
  }
  return ended(moved.flow === null ? moved : coast(moved.flow, moved, tEnd, follow));
}

/** How often a stretch is taken up again after a trial step ran into values that are not finite. */
const RETRIES = 12;

/** A trial step may overshoot into nonsense that a shorter one does not reach. */
function withShorterSteps(moved: Moved): Moved {
  const reached = (moved.failure?.t ?? moved.t) - moved.t;
  const longest = Math.min(moved.longest, reached > 0 ? reached : moved.step) / 4;
  return { ...moved, failure: null, step: longest, longest };
}

const isOver = (moved: Moved, tEnd: number): boolean =>
  moved.passage !== null || moved.cancelled || moved.failure !== null || moved.t >= tEnd;

const ended = (moved: Moved): ArcEnd => ({
  t: moved.t,
  y: moved.y,
  guards: moved.passage?.guards ?? [],
  cancelled: moved.cancelled,
  failure: moved.failure,
});

/** Long steps as far as the glance trusts them, then the suspect one closely. */
function glancedSteps<M>(
  plant: Plant<M>,
  from: Moved,
  mode: M,
  tEnd: number,
  settings: ArcSettings<M>,
  { watch: { restart }, glance: glanced, follow }: Lookouts<M>,
  fresh: boolean,
): Moved {
  const guards = plant.guards(mode);
  const look = guards.length === 0 ? null : glanced;
  look?.begin(from.t, from.y, mode, guards, fresh);
  const { moved, suspect } = longSteps(plant, from, mode, tEnd, settings, look);
  if (moved.t > from.t) restart(moved.t, moved.y);
  if (suspect === null || isOver(moved, tEnd)) return moved;
  const until = Math.min(suspect, tEnd);
  moved.step = until - moved.t;
  return closeSteps(plant, moved, mode, until, settings, follow, true);
}
