import { doubles } from "./doubles.ts";
import type { Follower } from "./follow.ts";
import type { Moved } from "./moved.ts";
import type { Flow } from "./plant.ts";

/** Halvings of the stretch at rest: early points close together, where its fast terms still move. */
const REST_HALVINGS = 20;

/** Follows a plant's own closed form to the end of the stretch. */
export function coast<M>(flow: Flow, from: Moved, tEnd: number, follow: Follower<M>): Moved {
  const t0 = from.t;
  const points: number[] = [];
  for (let k = REST_HALVINGS; k >= 1; k--) points.push(t0 + (tEnd - t0) * 2 ** -k);
  points.push(tEnd);
  const at = (t: number): number[] => {
    const y = doubles(from.y.length);
    flow(t, y);
    return y;
  };
  const last = at(tEnd);
  const passage = follow.visit(points, last, flow, false);
  if (passage === null) return { ...from, t: tEnd, y: last, flow: null };
  return { ...from, t: passage.t, y: at(passage.t), passage, flow: null };
}
