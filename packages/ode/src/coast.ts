import type { Follower } from "./follow.ts";
import type { Moved } from "./moved.ts";
import type { Plant } from "./plant.ts";
import type { Solution } from "./watch.ts";

/** Halvings of the stretch at rest: early points close together, where its fast terms still move. */
const REST_HALVINGS = 20;

/** Follows the plant's own closed form to the end of the stretch. */
export function coast<M>(
  plant: Plant<M>,
  t0: number,
  y0: readonly number[],
  mode: M,
  tEnd: number,
  follow: Follower,
): Moved {
  const rest = plant.rest;
  if (rest === undefined) throw new RangeError("invalid plant: rests without a closed form");
  const start = y0.slice();
  const solution: Solution = (t, y) => rest.flow(t0, start, mode, t, y);
  const points: number[] = [];
  for (let k = REST_HALVINGS; k >= 1; k--) points.push(t0 + (tEnd - t0) * 2 ** -k);
  points.push(tEnd);
  const last = new Array<number>(start.length).fill(0);
  solution(tEnd, last);
  const passage = follow.visit(points, last, solution);
  if (passage === null) return { t: tEnd, y: last, passage, rest: true, cancelled: false, failure: null };
  const at = new Array<number>(start.length).fill(0);
  solution(passage.t, at);
  return { t: passage.t, y: at, passage, rest: true, cancelled: false, failure: null };
}
