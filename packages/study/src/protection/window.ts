import { currentMargin, derated, fuseFromClass } from "@startgap/cabinet";
import type { MeltTerms } from "@startgap/circuit";
import { FUSE_MARGIN } from "../limits.ts";
import { amperes } from "../words.ts";
import { ampacityOf, largestFor, seenAt, standingCables } from "./ampacity.ts";
import { motorLimit } from "./motorFuse.ts";
import { type Profile, peakMelt } from "./profile.ts";
import type { FuseCandidate, FuseWindow, ProtectionFinding } from "./results.ts";
import { designCurrent, factsOf, partsOf, type Scene } from "./scene.ts";
import { bornBy, shortTimeMargin } from "./shortTime.ts";
import { standardSizes_A } from "./sizes.ts";
import { throughFaultMargin } from "./throughFault.ts";
import { CONTROL_VA, inputOf, largestForTransformer } from "./transformerFuse.ts";
import type { FusePart } from "./tree.ts";
import { within } from "./within.ts";

/** Ratings tried, of the one that is fitted. */
const LEAST = 0.3;
const MOST = 3;

interface Band {
  readonly melt: MeltTerms;
  readonly clearing: MeltTerms;
}

/** The same kind of fuse in another rating: by its class, else its own curve in proportion. */
function bandOf(scene: Scene, fuse: FusePart, rating_A: number): Band | null {
  if (fuse.melt === null || fuse.clearing === null) return null;
  const facts = factsOf(scene, "fuse", fuse.name);
  if (facts?.className == null) {
    const scale = rating_A / fuse.rating_A;
    const scaled = (t: MeltTerms): MeltTerms => ({ ...t, minimumFusing_A: t.minimumFusing_A * scale });
    return { melt: scaled(fuse.melt), clearing: scaled(fuse.clearing) };
  }
  const found = fuseFromClass(facts.className, rating_A);
  if (!("value" in found)) return null;
  const warm = (t: MeltTerms): MeltTerms => derated(t, facts.ambient_C);
  return { melt: warm(found.value.melt), clearing: warm(found.value.clearing) };
}

/**
 * Which standard ratings of the same kind of fuse hold the start with a quarter of the current in hand, and which still
 * protect everything that hangs on this fuse.
 *
 * @param profile the fuse's current over the story as it is meant to be run
 * @returns null for a fuse without a curve
 */
export function windowOf(scene: Scene, fuse: FusePart, profile: Profile): FuseWindow | null {
  const sizes = [...new Set([...standardSizes_A(scene.rules), fuse.rating_A])].sort((a, b) => a - b);
  const tried = sizes.filter((size) => size >= LEAST * fuse.rating_A && size <= MOST * fuse.rating_A);
  const candidates = tried.flatMap((rating_A) => {
    const band = bandOf(scene, fuse, rating_A);
    return band === null ? [] : [candidate(scene, fuse, rating_A, band, profile)];
  });
  if (candidates.length === 0) return null;
  const holding = candidates.filter(({ holds }) => holds);
  const protecting = candidates.filter(({ protects }) => protects);
  return {
    part: fuse.name,
    fitted_A: fuse.rating_A,
    smallest_A: holding[0]?.rating_A ?? null,
    largest_A: protecting[protecting.length - 1]?.rating_A ?? null,
    candidates,
  };
}

function candidate(
  scene: Scene,
  fuse: FusePart,
  rating_A: number,
  band: Band,
  profile: Profile,
): FuseCandidate {
  const started = currentMargin(peakMelt(band.melt, profile));
  const running_A = scene.situations.running.current_A(fuse.name);
  const steady = running_A > 0 ? band.melt.minimumFusing_A / running_A : Number.POSITIVE_INFINITY;
  const margin = Math.min(started ?? Number.POSITIVE_INFINITY, steady);
  const holds = margin >= FUSE_MARGIN.pass;
  const against = obstacles(scene, fuse, rating_A, band);
  const start = holds
    ? []
    : [`holds with ${Number(margin.toPrecision(2))} times the current, ${FUSE_MARGIN.pass} wanted`];
  return {
    rating_A,
    currentMargin: Number.isFinite(margin) ? margin : null,
    holds,
    protects: against.length === 0,
    reasons: [...start, ...against],
  };
}

/** Everything that a fuse of this rating would no longer protect, in words. */
function obstacles(scene: Scene, fuse: FusePart, rating_A: number, band: Band): string[] {
  const above = (limit_A: number): boolean => !within(rating_A, limit_A);
  const cables = standingCables(scene, fuse).flatMap((name) =>
    cableObstacles(scene, fuse, name, rating_A, band),
  );
  const transformers = woundBehind(scene, fuse).flatMap((p) => {
    const limit = largestForTransformer(scene, p).rating_A / seenAt(scene, fuse, p.name, 1);
    const rated_A = inputOf(scene, p) / seenAt(scene, fuse, p.name, 1);
    const harmed = throughFaultMargin(band.clearing, rated_A).least < 1;
    return [
      ...(above(limit) ? [`${p.name} may have ${amperes(limit)}`] : []),
      ...(harmed ? [`${p.name} would be harmed by a short circuit behind it`] : []),
    ];
  });
  const motors = scene.rules === "NEC" ? motorLimit(scene, fuse) : null;
  const most = motors === null ? Number.POSITIVE_INFINITY : Math.max(motors.most_A, motors.usual_A);
  return [...cables, ...transformers, ...(above(most) ? [`the motors may have ${amperes(most)}`] : [])];
}

/** Transformers that hang on a fuse; small control transformers ask for a fuse of their own. */
const woundBehind = (scene: Scene, fuse: FusePart) =>
  [...partsOf(scene, "autotransformer"), ...partsOf(scene, "transformer")].filter(
    (p) =>
      Number.isFinite(p.rating_VA) &&
      p.rating_VA >= CONTROL_VA &&
      scene.tree.fuseAhead(p.name)?.name === fuse.name,
  );

function cableObstacles(scene: Scene, fuse: FusePart, name: string, rating_A: number, band: Band): string[] {
  const facts = factsOf(scene, "cable", name);
  const ampacity = facts?.conductor == null ? null : ampacityOf(facts.conductor, facts.insulation_C);
  if (facts?.conductor == null || ampacity === null) return [];
  const limit = largestFor(scene, facts.conductor, ampacity.current_A).rating_A;
  const motors = scene.rules === "NEC" && designCurrent(scene, name, scene.nominal_V(name)).onlyMotors;
  const burns = scene.tree.fuseAhead(name)?.name === fuse.name && tooHot(scene, fuse, name, band);
  return [
    ...(!within(seenAt(scene, fuse, name, rating_A), limit) && !motors
      ? [`${name} may have ${amperes(limit)}`]
      : []),
    ...(burns ? [`${name} would overheat in a short circuit`] : []),
  ];
}

function tooHot(scene: Scene, fuse: FusePart, cable: string, band: Band): boolean {
  const bears = bornBy(scene, cable, fuse.name);
  if (bears === null) return false;
  const far_A = scene.faultBehind(cable).through_A(fuse.name);
  const found = shortTimeMargin(band.clearing, bears.withstand_A2s, bears.most_A, far_A);
  return found !== null && found.least < 1;
}

/** What the window says of the fuse that is fitted. */
export function windowFinding(window: FuseWindow): ProtectionFinding {
  const { part, fitted_A, largest_A, candidates } = window;
  const fitted = candidates.find(({ rating_A }) => rating_A === fitted_A);
  const fits = fitted?.holds === true && fitted.protects;
  const range = rangeOf(window);
  return {
    finding: "fuse window",
    part,
    outcome: fits ? "pass" : "fail",
    gravity: fitted?.protects === false ? "danger" : "stops work",
    value: fitted_A,
    limit: largest_A,
    unit: "A",
    basis: `hold: ${FUSE_MARGIN.basis}; protection: the rules of the other findings`,
    says: range === null ? noneSays(window) : `${part}: ${range}; ${amperes(fitted_A)} is fitted.`,
    change: fits
      ? null
      : range === null
        ? "Thicken the conductor or ease the start until one rating does both; a larger fuse alone is no cure."
        : "Fit a rating inside that window.",
  };
}

/** The window in words; null when no rating does both. */
function rangeOf({ smallest_A, largest_A, candidates }: FuseWindow): string | null {
  if (smallest_A === null || largest_A === null || smallest_A > largest_A) return null;
  if (candidates[candidates.length - 1].protects)
    return `${amperes(smallest_A)} to ${amperes(largest_A)}, the largest tried, holds the start and protects`;
  return smallest_A === largest_A
    ? `only ${amperes(smallest_A)} both holds the start and protects`
    : `${amperes(smallest_A)} to ${amperes(largest_A)} both holds the start and protects`;
}

function noneSays({ part, smallest_A, largest_A }: FuseWindow): string {
  const least = smallest_A === null ? "none tried holds the start" : `the start needs ${amperes(smallest_A)}`;
  const most = largest_A === null ? "none tried protects" : `protection ends at ${amperes(largest_A)}`;
  return `${part}: no rating both holds the start and protects: ${least}, ${most}.`;
}
