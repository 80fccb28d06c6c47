import type { ArcSettings } from "./settings.ts";
import type { Passage, Solution } from "./watch.ts";

/** Walks stretches of solution: guards, recorder and snapshots at the given points; one serves all arcs of a run. */
export interface Follower<M> {
  /** Takes up an arc at `t`. */
  begin(t: number, mode: M): void;
  /** Next snapshot time, Infinity when there is none. */
  next(): number;
  /** Visits `points` (ascending, the last one with state `yLast`) on `solution`. */
  visit(points: readonly number[], yLast: readonly number[], solution: Solution): Passage | null;
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
  const y = new Array<number>(dimension).fill(0);
  const next = (): number => (index < snapshots.length ? snapshots[index] : Number.POSITIVE_INFINITY);
  const handOut = (until: number, solution: Solution): void => {
    while (next() <= until) {
      solution(snapshots[index], y);
      onSnapshot(snapshots[index], y, mode);
      index++;
    }
  };
  return {
    next,
    begin(t, of) {
      mode = of;
      while (index < snapshots.length && snapshots[index] <= t) index++;
    },
    visit(points, yLast, solution) {
      const last = points.length - 1;
      for (let i = 0; i <= last; i++) {
        const t = points[i];
        const at = i === last ? yLast : y;
        if (i < last) solution(t, y);
        const passage = advance(t, at, solution);
        if (passage !== null) {
          handOut(passage.t, solution);
          solution(passage.t, y);
          recorder?.sample(passage.t, y, mode);
          return passage;
        }
        if (recorder !== null && (i === last || recorder.interior)) recorder.sample(t, at, mode);
      }
      handOut(points[last], solution);
      return null;
    },
  };
}
