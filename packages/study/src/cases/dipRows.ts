import type { StudyFailure } from "../failure.ts";
import type { Pace } from "../telling.ts";
import type { DipEdges, DipOutcome } from "./dipResults.ts";
import type { Running, Scene } from "./scene.ts";
import { tryDip } from "./tryDip.ts";

/** What every dip of a map branches from. */
export interface Ground {
  readonly scene: Scene;
  readonly from: Running;
  readonly lengths_s: readonly number[];
  readonly pace: Pace;
}

/** All dips of one depth. */
export interface DipRow {
  readonly left: number;
  readonly outcomes: readonly DipOutcome[];
  readonly changes: DipEdges["changes"];
}

type Change = DipEdges["changes"][number];

/** An edge in length is closed in on to this part of itself. */
const LENGTH_WITHIN = 5e-4;
/** An edge in depth, of nominal voltage. */
const DEPTH_WITHIN = 0.005;
/** Edges of neighbouring depths that lie within this part of each other are one line. */
const SAME_EDGE = 0.1;
/** Depths put between those asked for, at most. */
const MOST_REFINED = 40;

/** Every length at one depth, and between them every length at which the end changes. */
export function rowOf(ground: Ground, left: number): DipRow | StudyFailure {
  const outcomes: DipOutcome[] = [];
  const changes: Change[] = [];
  for (const length_s of ground.lengths_s) {
    const one = tryDip(ground.scene, ground.from, { left, length_s }, ground.pace);
    if ("failed" in one) return one;
    const before = outcomes[outcomes.length - 1];
    outcomes.push(one);
    if (before === undefined) continue;
    const between = changesBetween(ground, before, one);
    if ("failed" in between) return between;
    changes.push(...between);
  }
  return { left, outcomes, changes };
}

/** The changes from one length to a longer one: halved until each stands alone, then until it is close enough. */
function changesBetween(ground: Ground, shorter: DipOutcome, longer: DipOutcome): Change[] | StudyFailure {
  if (shorter.end === longer.end) return [];
  const [low, high] = [shorter.length_s, longer.length_s];
  if (high - low <= LENGTH_WITHIN * low) return [{ at_s: high, before: shorter.end, after: longer.end }];
  const middle = { left: shorter.left, length_s: (low + high) / 2 };
  const one = tryDip(ground.scene, ground.from, middle, ground.pace);
  if ("failed" in one) return one;
  const first = changesBetween(ground, shorter, one);
  if ("failed" in first) return first;
  const second = changesBetween(ground, one, longer);
  return "failed" in second ? second : [...first, ...second];
}

const edgesOf = ({ left, outcomes, changes }: DipRow): DipEdges => ({
  left,
  shortest: outcomes[0].end,
  changes,
});

/** True when a line can be drawn from every edge of one depth to that of the next. */
function alike(a: DipRow, b: DipRow): boolean {
  return (
    a.outcomes[0].end === b.outcomes[0].end &&
    a.changes.length === b.changes.length &&
    a.changes.every(({ at_s, after }, i) => {
      const other = b.changes[i];
      return after === other.after && Math.abs(at_s - other.at_s) <= SAME_EDGE * Math.min(at_s, other.at_s);
    })
  );
}

/** The rows with more between them wherever the answer changes with the depth. */
export function refinedRows(ground: Ground, rows: readonly DipRow[]): DipEdges[] | StudyFailure {
  let room = MOST_REFINED;
  const between = (a: DipRow, b: DipRow): DipRow[] | StudyFailure => {
    if (room <= 0 || b.left - a.left <= DEPTH_WITHIN || alike(a, b)) return [];
    room--;
    const middle = rowOf(ground, (a.left + b.left) / 2);
    if ("failed" in middle) return middle;
    const first = between(a, middle);
    if ("failed" in first) return first;
    const second = between(middle, b);
    return "failed" in second ? second : [...first, middle, ...second];
  };
  const all: DipRow[] = [];
  for (const row of rows) {
    const last = all[all.length - 1];
    const more = last === undefined ? [] : between(last, row);
    if ("failed" in more) return more;
    all.push(...more, row);
  }
  return all.map(edgesOf);
}
