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
const SAME_EDGE = 0.15;
/** Depths put between those asked for, at most. */
const MOST_REFINED = 30;

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

const endsOf = ({ left, outcomes, changes }: DipRow): string =>
  [edgesOf({ left, outcomes, changes }).shortest, ...changes.map(({ after }) => after)].join();

/** Different ends follow each other. */
const differ = (a: DipRow, b: DipRow): boolean => endsOf(a) !== endsOf(b);

/** The same ends follow each other, at lengths too far apart to draw a line from one to the other. */
const drift = (a: DipRow, b: DipRow): boolean =>
  !differ(a, b) &&
  a.changes.some(({ at_s }, i) => {
    const other = b.changes[i].at_s;
    return Math.abs(at_s - other) > SAME_EDGE * Math.min(at_s, other);
  });

/**
 * The rows with more between them wherever the answer changes with the depth: first where other ends follow each
 * other, down to the least step; then where they come at other lengths, as far as there is room.
 */
export function refinedRows(ground: Ground, rows: readonly DipRow[]): DipEdges[] | StudyFailure {
  const sharp = refined(ground, rows, differ);
  if ("failed" in sharp) return sharp;
  const smooth = refined(ground, sharp, drift);
  return "failed" in smooth ? smooth : smooth.map(edgesOf);
}

/** Halves every step that needs it, all of them once before any of them twice. */
function refined(
  ground: Ground,
  rows: readonly DipRow[],
  needs: (a: DipRow, b: DipRow) => boolean,
): DipRow[] | StudyFailure {
  let all = [...rows];
  for (let room = MOST_REFINED; room > 0; ) {
    const next: DipRow[] = [];
    for (const row of all) {
      const last = next[next.length - 1];
      if (room > 0 && last !== undefined && row.left - last.left > DEPTH_WITHIN && needs(last, row)) {
        const middle = rowOf(ground, (last.left + row.left) / 2);
        if ("failed" in middle) return middle;
        next.push(middle);
        room--;
      }
      next.push(row);
    }
    if (next.length === all.length) return all;
    all = next;
  }
  return all;
}
