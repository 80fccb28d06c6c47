import { doubles } from "./doubles.ts";
import { crossing, isBeyond, SAME_MOMENT_s } from "./locate.ts";
import type { Guard, Plant } from "./plant.ts";

/** Where guards were found to pass: the moment, and every guard that passes at it. */
export interface Passage {
  readonly t: number;
  readonly guards: readonly Guard[];
}

/** Reads the solution at a time inside the stretch being watched, into `y`. */
export type Solution = (t: number, y: number[]) => void;

/** Follows the guards of a mode along a solution, point by point; one serves all arcs of a run. */
export interface Watch<M> {
  /** Takes up the guards of a mode at the start of an arc; returns level guards that are already beyond. */
  begin(t: number, y: readonly number[], mode: M): readonly Guard[];
  /** Moves on to t, where the state is y; a passage since the last point is located on the solution. */
  advance(t: number, y: readonly number[], solution: Solution): Passage | null;
  /** Takes up the watch again at a later point that was reached without a passage. */
  restart(t: number, y: readonly number[]): void;
}

/** Halvings of the first stretch after an event, to find a guard that has left and come back. */
const LOOK_BACK = 40;

export function watch<M>(plant: Plant<M>, firstMode: M, dimension: number): Watch<M> {
  let mode = firstMode;
  let guards: readonly Guard[] = [];
  let count = 0;
  let rises: readonly boolean[] = [];
  let [before, now, probe, justBefore, justAfter] = valuesFor(8);
  const scratch = doubles(dimension);
  let tBefore = 0;
  let first = true;

  const valueAt = (index: number, t: number, solution: Solution): number => {
    solution(t, scratch);
    plant.guardValues(t, scratch, mode, probe);
    return probe[index];
  };

  /** The near end of a bracket for guard `index`: the last point, or one found just after an event. */
  const nearEnd = (index: number, t: number, solution: Solution): number | null => {
    const rising = rises[index];
    if (!isBeyond(before[index], rising)) return tBefore;
    if (!first) return null;
    for (let k = 1, gap = (t - tBefore) / 2; k <= LOOK_BACK; k++, gap /= 2) {
      if (!isBeyond(valueAt(index, tBefore + gap, solution), rising)) return tBefore + gap;
    }
    return null;
  };

  const rootOf = (index: number, t: number, solution: Solution): number | null => {
    const near = nearEnd(index, t, solution);
    if (near === null) return null;
    const vNear = near === tBefore ? before[index] : valueAt(index, near, solution);
    return crossing((at) => valueAt(index, at, solution), near, t, vNear, now[index]);
  };

  const valuesAt = (t: number, solution: Solution, into: Float64Array): void => {
    solution(t, scratch);
    plant.guardValues(t, scratch, mode, into);
  };

  /**
   * The earliest passage up to t. Once one root is known, a guard that is not yet beyond a moment after it
   * passes later, and one that was not beyond a moment before it passes together with it: neither needs a
   * root of its own, so that many motors passing as one cost one search.
   */
  const locate = (t: number, solution: Solution): Passage | null => {
    let earliest = Number.POSITIVE_INFINITY;
    let together: { guard: Guard; t: number }[] = [];
    const known = (i: number, rising: boolean): "later" | "together" | null => {
      if (earliest > t || isBeyond(before[i], rising)) return null;
      if (!isBeyond(justAfter[i], rising)) return "later";
      return isBeyond(justBefore[i], rising) ? null : "together";
    };
    for (let i = 0; i < count; i++) {
      const rising = rises[i];
      if (!isBeyond(now[i], rising)) continue;
      const already = known(i, rising);
      if (already === "later") continue;
      const root = already === "together" ? Math.min(t, earliest + SAME_MOMENT_s) : rootOf(i, t, solution);
      if (root === null || root > earliest + SAME_MOMENT_s) continue;
      together.push({ guard: guards[i], t: root });
      if (root >= earliest) continue;
      earliest = root;
      together = together.filter((one) => one.t <= earliest + SAME_MOMENT_s);
      valuesAt(Math.max(tBefore, earliest - SAME_MOMENT_s), solution, justBefore);
      valuesAt(Math.min(t, earliest + SAME_MOMENT_s), solution, justAfter);
    }
    if (together.length === 0) return null;
    return { t: Math.max(...together.map((one) => one.t)), guards: together.map((one) => one.guard) };
  };

  const mayPass = (): boolean => {
    for (let i = 0; i < count; i++) {
      if (isBeyond(now[i], rises[i]) && (first || !isBeyond(before[i], rises[i]))) return true;
    }
    return false;
  };

  const restart = (t: number, y: readonly number[]): void => {
    plant.guardValues(t, y, mode, before);
    tBefore = t;
    first = false;
  };

  return {
    restart,
    begin(t, y, next) {
      mode = next;
      guards = plant.guards(mode);
      count = guards.length;
      rises = guards.map((guard) => guard.direction === "rising");
      if (count > before.length) [before, now, probe, justBefore, justAfter] = valuesFor(2 * count);
      restart(t, y);
      first = true;
      return guards.filter((guard, i) => guard.level && isBeyond(before[i], rises[i]));
    },
    advance(t, y, solution) {
      plant.guardValues(t, y, mode, now);
      const passage = mayPass() ? locate(t, solution) : null;
      if (passage === null) {
        const last = before;
        before = now;
        now = last;
        tBefore = t;
        first = false;
      }
      return passage;
    },
  };
}

/** Five rows of guard values. */
const valuesFor = (count: number): Float64Array[] => Array.from({ length: 5 }, () => new Float64Array(count));
