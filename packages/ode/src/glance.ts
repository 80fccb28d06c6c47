import { doubles } from "./doubles.ts";
import { isBeyond } from "./locate.ts";
import type { Guard, Plant } from "./plant.ts";

/** Inner points of a step at which its cubic is looked at. */
const GLANCES = 4;
/** How many times deeper than the cubic shows a dip is feared to be. */
const FEAR = 3;
/** Steps like the last one within which a passage is due. */
const SOON = 1.5;
/** How far to look, as a multiple of the straight way: the first half holds the passage though its pace slackens. */
const BEYOND = 2.8;

/**
 * A cheap look at a step taken without dense output: could a guard have passed in it?
 *
 * The guards are evaluated at the step's end, where the state is known to the solver's tolerance, and at
 * four inner points of the cubic through both ends and their rates. A guard that is beyond at the end, or
 * dips towards zero between the ends so far that a dip three times as deep would pass, is suspect. Suspicion
 * costs a second pass over the step with dense output and ten inner points; it decides nothing.
 *
 * A guard that is beyond already can only pass after it has come back, so that it is above suspicion while it
 * stays there; all but in the first step after an event, where it may have come back unseen.
 */
export interface Glance<M> {
  /** Takes up the look at (t, y) in a mode; `fresh` where an arc begins. */
  begin(t: number, y: readonly number[], mode: M, guards: readonly Guard[], fresh: boolean): void;
  /**
   * Until when the step to (t, y) deserves the closer look: a little past where the cubic first passes.
   * Null when it is above suspicion; then the glance has moved on to its end.
   */
  suspects(t: number, y: readonly number[]): number | null;
  /**
   * Until when a passage deserves to be looked for where the last step, above suspicion, heads straight for one that
   * a step like it would reach. Null when it does not. To look at once saves a step that would be taken twice.
   */
  due(): number | null;
}

export function glance<M>(plant: Plant<M>, firstMode: M, dimension: number): Glance<M> {
  let mode = firstMode;
  let count = 0;
  let rising: readonly boolean[] = [];
  let [before, after, inside] = valuesFor(8);
  let rate = doubles(dimension);
  let rateAfter = doubles(dimension);
  const yBefore = doubles(dimension);
  const y = doubles(dimension);
  /** 1 for a guard that is known, or has to be feared, to stand before its passage. */
  let near = new Uint8Array(8);
  let tBefore = 0;
  let due_s = Number.POSITIVE_INFINITY;

  const keep = (t: number, state: readonly number[], fresh: boolean): void => {
    tBefore = t;
    for (let i = 0; i < dimension; i++) yBefore[i] = state[i];
    for (let i = 0; i < count; i++) near[i] = fresh || !isBeyond(before[i], rising[i]) ? 1 : 0;
  };

  const cubic = (x: number, h: number, yAfter: readonly number[]): void => {
    const w = 1 - x;
    const b = x * x * (3 - 2 * x);
    const c = h * x * w * w;
    const d = -h * x * x * w;
    for (let i = 0; i < dimension; i++) {
      y[i] = yBefore[i] + b * (yAfter[i] - yBefore[i]) + c * rate[i] + d * rateAfter[i];
    }
  };

  /** Could guard i pass zero and come back? A dip lies nearer to zero than both ends. */
  const dips = (i: number): boolean => {
    const sign = rising[i] ? -1 : 1;
    const nearest = Math.min(sign * before[i], sign * after[i]);
    const dip = nearest - sign * inside[i];
    return dip > 0 && nearest - FEAR * dip <= 0;
  };

  /** Shortest straight way of a guard from its last inner value through its end value to zero. */
  const wayToZero = (gap: number): number => {
    let shortest = Number.POSITIVE_INFINITY;
    for (let i = 0; i < count; i++) {
      const way = (-after[i] * gap) / (after[i] - inside[i]);
      if (near[i] === 1 && way > 0) shortest = Math.min(shortest, way);
    }
    return shortest;
  };

  return {
    due: () => (due_s < Number.POSITIVE_INFINITY ? due_s : null),
    begin(t, state, next, guards, fresh) {
      due_s = Number.POSITIVE_INFINITY;
      mode = next;
      count = guards.length;
      rising = guards.map((guard) => guard.direction === "rising");
      if (count > before.length) {
        [before, after, inside] = valuesFor(2 * count);
        near = new Uint8Array(2 * count);
      }
      plant.derivative(t, state, mode, rate);
      plant.guardValues(t, state, mode, before);
      keep(t, state, fresh);
    },
    suspects(t, state) {
      plant.derivative(t, state, mode, rateAfter);
      plant.guardValues(t, state, mode, after);
      const gap = (t - tBefore) / (GLANCES + 1);
      let dipped = false;
      for (let k = 1; k <= GLANCES; k++) {
        cubic(k / (GLANCES + 1), t - tBefore, state);
        plant.guardValues(tBefore + k * gap, y, mode, inside);
        for (let i = 0; i < count; i++) {
          if (!isBeyond(inside[i], rising[i])) near[i] = 1;
          else if (near[i] === 1) return Math.min(t, tBefore + (k + 1) * gap);
          dipped ||= near[i] === 1 && dips(i);
        }
      }
      for (let i = 0; i < count; i++) if (near[i] === 1 && isBeyond(after[i], rising[i])) return t;
      if (dipped) return t;
      const way = wayToZero(gap);
      due_s = way <= SOON * (t - tBefore) ? t + BEYOND * way : Number.POSITIVE_INFINITY;
      [before, after] = [after, before];
      [rate, rateAfter] = [rateAfter, rate];
      keep(t, state, false);
      return null;
    },
  };
}

/** Three rows of guard values. */
const valuesFor = (count: number): Float64Array[] => [0, 1, 2].map(() => new Float64Array(count));
