import type { Cabinet } from "@startgap/cabinet";
import { type CircuitPlant, plantOf } from "@startgap/circuit";
import { agreed } from "./agreed.ts";
import { notAsked, nothingToDelay } from "./check.ts";
import { isFailure, type StudyFailure } from "./failure.ts";
import { type Judged, judged } from "./judge/judged.ts";
import type { StudyOptions } from "./options.ts";
import type { Check, Finding, Story } from "./results.ts";
import { delayFor, type Stagger, staggerOf } from "./stagger.ts";
import { storyOf } from "./story.ts";
import { durationOf, type Pace, type Trunk, tellBranch, tellTrunk } from "./telling.ts";

/** The check of a cabinet at one delay after another: see `staggerer`. */
export type Staggerer = (delay_s?: number, duration_s?: number) => Check | StudyFailure;

/**
 * A cabinet's check without its map, for a delay that is being dragged: what no delay changes is told once and
 * kept, so that another delay costs one branch. Each answer equals `check` of that delay and length; the stories
 * that stay are the same objects from one answer to the next.
 *
 * @param options as of `check`; its delay and length of story are given call by call
 * @returns a function of the delay in s, 0 or more, and of the stories' length in s, both as `check` takes them
 *
 * Limitation: loads that hold their power are solved from where the last solution stood, to 1e-13: with these,
 * numbers may differ from `check` in their last digits.
 *
 * Checked by packages/study/test/staggerer.test.ts.
 */
export function staggerer(
  cabinet: Cabinet,
  options: Pick<StudyOptions, "tolerance" | "signal"> = {},
): Staggerer {
  const stagger = staggerOf(cabinet.circuit);
  const tolerance = options.tolerance ?? 1e-6;
  const paces = [tolerance, tolerance / 10].map(
    (each): Pace => ({ tolerance: each, signal: options.signal }),
  );
  const plant = plantOf(cabinet.circuit);
  let kept: Kept | null = null;
  return (asked_s, length_s) => {
    const delay_s = delayFor(stagger, asked_s);
    const duration_s = durationOf(stagger, delay_s, length_s);
    if (kept?.duration_s !== duration_s) {
      const told = keptFor(plant, stagger, duration_s, paces);
      if (isFailure(told)) return told;
      kept = told;
    }
    return checkAt(kept, cabinet, stagger, delay_s);
  };
}

/** What no delay changes, told at one tolerance. */
interface Told {
  readonly pace: Pace;
  readonly trunk: Trunk;
  readonly fixed: readonly Judged[];
}

/** What no delay changes, at one length of the stories. */
interface Kept {
  readonly duration_s: number;
  readonly loose: Told;
  readonly tight: Told;
  readonly findings: readonly Finding[];
  readonly stories: readonly Story[];
}

function keptFor(
  plant: CircuitPlant,
  stagger: Stagger,
  duration_s: number,
  [pace, tighter]: readonly Pace[],
): Kept | StudyFailure {
  const loose = toldAt(plant, stagger, duration_s, pace);
  if (isFailure(loose)) return loose;
  const tight = toldAt(plant, stagger, duration_s, tighter);
  if (isFailure(tight)) return tight;
  return {
    duration_s,
    loose,
    tight,
    findings: loose.fixed.flatMap((one, i) => agreed(one.findings, tight.fixed[i].findings)),
    stories: loose.fixed.map((one) => storyOf(one.told, one.name)),
  };
}

function toldAt(plant: CircuitPlant, stagger: Stagger, duration_s: number, pace: Pace): Told | StudyFailure {
  const trunk = tellTrunk(plant, stagger, duration_s, stagger.possible ? momentsIn(duration_s) : [], pace);
  if (isFailure(trunk)) return trunk;
  const one = judged(trunk, "one", stagger);
  if (!stagger.possible) return { pace, trunk, fixed: [one] };
  const together = tellBranch(trunk, stagger, 0, duration_s, pace);
  if (isFailure(together)) return together;
  return { pace, trunk, fixed: [one, judged(together, "together", stagger)] };
}

const MOST_MOMENTS = 2000;
const SPACINGS = [1, 2, 5, 10, 20, 50, 100, 200, 500] as const;

/** Moments to branch at, in hundredths of a second or a round multiple: those that a delay is dragged to. */
function momentsIn(duration_s: number): number[] {
  const hundredths = Math.floor(100 * duration_s);
  const spacing = SPACINGS.find((each) => hundredths / each <= MOST_MOMENTS) ?? 500;
  return Array.from({ length: Math.floor(hundredths / spacing) + 1 }, (_, k) => (k * spacing) / 100);
}

function checkAt(kept: Kept, { title }: Cabinet, stagger: Stagger, delay_s: number): Check | StudyFailure {
  const { loose, tight, findings, stories } = kept;
  const delay = stagger.possible ? notAsked : nothingToDelay;
  const cases = loose.fixed.map((one) => one.report);
  const report = { startgap: "check 1", title, cases, delay, findings } as const;
  if (!stagger.possible) return { report, stories, map: null };
  const staggered = staggeredAt(loose, stagger, delay_s, kept.duration_s);
  if (isFailure(staggered)) return staggered;
  const tighter = staggeredAt(tight, stagger, delay_s, kept.duration_s);
  if (isFailure(tighter)) return tighter;
  const own = agreed(staggered.findings, tighter.findings);
  return {
    report: { ...report, cases: [...cases, staggered.report], findings: [...findings, ...own] },
    stories: [...stories, storyOf(staggered.told, "staggered")],
    map: null,
  };
}

/** A delay between the moments that were kept has the trunk told again, its own moment taken. */
function staggeredAt(
  { trunk, pace }: Told,
  stagger: Stagger,
  delay_s: number,
  duration_s: number,
): Judged | StudyFailure {
  const reached = trunk.moments.has(delay_s) || delay_s > duration_s || delay_s === 0;
  const from = reached ? trunk : tellTrunk(trunk.plant, stagger, duration_s, [delay_s], pace);
  if (isFailure(from)) return from;
  const told = tellBranch(from, stagger, delay_s, duration_s, pace);
  return isFailure(told) ? told : judged(told, "staggered", stagger);
}
