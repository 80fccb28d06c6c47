import { doubles } from "./doubles.ts";
import type { ArcSettings } from "./settings.ts";
import type { Passage, Solution } from "./watch.ts";

/** Walks stretches of solution: guards, recorder and snapshots at the given points; one serves all arcs of a run. */
export interface Follower<M> {
  /** Takes up an arc at `t`. */
  begin(t: number, mode: M): void;
  /** Next snapshot time, Infinity when there is none. */
  next(): number;
  /** True when the snapshots due in a step leave no stretch of it longer than `gap_s` unread. */
  covers(tOld: number, t: number, gap_s: number): boolean;
  /**
   * Visits `points` (ascending, the last one with state `yLast`) on `solution`; guards are looked at there, and at
   * snapshots too where these stand in for points.
   */
  visit(
    points: readonly number[],
    yLast: readonly number[],
    solution: Solution,
    snapshotsToo: boolean,
  ): Passage | null;
}

export function follower<M>(
  advance: (t: number, y: readonly number[], solution: Solution) => Passage | null,
  settings: ArcSettings<M>,
  firstMode: M,
  dimension: number,
): Follower<M> {
  const { recorder, snapshots, onSnapshot } = settings;
  let mode = firstMode;
  let index = 0;
  const y = doubles(dimension);
  const snapshot = doubles(dimension);
  const next = (): number => (index < snapshots.length ? snapshots[index] : Number.POSITIVE_INFINITY);
  const handOut = (at: number, state: readonly number[]): void => {
    while (next() <= at) onSnapshot(snapshots[index++], state, mode);
  };
  const handOutBefore = (t: number, solution: Solution): void => {
    while (next() < t) {
      solution(next(), snapshot);
      handOut(next(), snapshot);
    }
  };
  const stopAt = (passage: Passage, solution: Solution): Passage => {
    handOutBefore(passage.t, solution);
    solution(passage.t, y);
    handOut(passage.t, y);
    recorder?.sample(passage.t, y, mode);
    return passage;
  };
  /** Hands out what is due before a moment, guards looked at on the way. */
  const visitSnapshots = (before: number, solution: Solution): Passage | null => {
    for (let at = next(); at < before; at = next()) {
      solution(at, y);
      const passage = advance(at, y, solution);
      if (passage !== null) return stopAt(passage, solution);
      handOut(at, y);
    }
    return null;
  };
  return {
    next,
    begin(t, of) {
      mode = of;
      while (index < snapshots.length && snapshots[index] <= t) index++;
    },
    covers(tOld, t, gap_s) {
      let before = tOld;
      for (let k = index; k < snapshots.length && snapshots[k] < t; k++) {
        if (snapshots[k] - before > gap_s) return false;
        before = snapshots[k];
      }
      return t - before <= gap_s;
    },
    visit(points, yLast, solution, snapshotsToo) {
      const last = points.length - 1;
      for (let i = 0; i <= last; i++) {
        const t = points[i];
        const caught = snapshotsToo ? visitSnapshots(t, solution) : null;
        if (caught !== null) return caught;
        const at = i === last ? yLast : y;
        if (i < last) solution(t, y);
        const passage = advance(t, at, solution);
        if (passage !== null) return stopAt(passage, solution);
        if (recorder !== null && (i === last || recorder.interior)) recorder.sample(t, at, mode);
        handOutBefore(t, solution);
        handOut(t, at);
      }
      return null;
    },
  };
}
