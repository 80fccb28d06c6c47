import type { Cabinet } from "@startgap/cabinet";
import { type Circuit, plantOf } from "@startgap/circuit";
import { agreed } from "./agreed.ts";
import { delayMap } from "./delayMap.ts";
import { isFailure, type StudyFailure } from "./failure.ts";
import { type Judged, judged } from "./judge/judged.ts";
import type { StudyOptions } from "./options.ts";
import type { Check, DelayAdvice } from "./results.ts";
import { delayFor, type Stagger, staggerOf } from "./stagger.ts";
import { storyOf } from "./story.ts";
import { durationOf, type Pace, tellBranch, tellTrunk } from "./telling.ts";

/**
 * Runs the three cases of a cabinet and the delay map, and judges them.
 *
 * Findings whose verdict changes when the solver's tolerance is tightened tenfold are not given: they
 * become a caution that says so.
 *
 * @returns report, stories and map; or one sentence that says when, where and why it could not be finished
 */
export function check(cabinet: Cabinet, options: StudyOptions = {}): Check | StudyFailure {
  const stagger = staggerOf(cabinet.circuit);
  const tolerance = options.tolerance ?? 1e-6;
  const cases = judgeCases(cabinet.circuit, stagger, options, { tolerance, signal: options.signal });
  if (isFailure(cases)) return cases;
  const tighter = judgeCases(cabinet.circuit, stagger, options, {
    tolerance: tolerance / 10,
    signal: options.signal,
  });
  if (isFailure(tighter)) return tighter;
  const map = options.withMap === false ? null : delayMap(cabinet, { ...options, duration_s: undefined });
  if (isFailure(map)) return map;
  const findings = cases.flatMap((one, i) => agreed(one.findings, tighter[i].findings));
  return {
    report: {
      startgap: "check 1",
      title: cabinet.title,
      cases: cases.map((one) => one.report),
      delay: map?.advice ?? (stagger.possible ? notAsked : nothingToDelay),
      findings,
    },
    stories: cases.map((one) => storyOf(one.told, one.name)),
    map,
  };
}

/** Advice where no delays were mapped. */
export const notAsked: DelayAdvice = {
  recommended_s: null,
  shortest_s: null,
  knee_s: null,
  reason: "The delay map was not asked for.",
};

/** Advice where one motor starts. */
export const nothingToDelay: DelayAdvice = {
  recommended_s: null,
  shortest_s: null,
  knee_s: null,
  reason: "There is one motor: nothing to hold back.",
};

function judgeCases(
  circuit: Circuit,
  stagger: Stagger,
  options: StudyOptions,
  pace: Pace,
): readonly Judged[] | StudyFailure {
  const plant = plantOf(circuit);
  const delay_s = delayFor(stagger, options.delay_s);
  const duration_s = durationOf(stagger, delay_s, options.duration_s);
  const trunk = tellTrunk(plant, stagger, duration_s, stagger.possible ? [delay_s] : [], pace);
  if (isFailure(trunk)) return trunk;
  const cases = [judged(trunk, "one", stagger)];
  if (!stagger.possible) return cases;
  for (const [name, delay] of [
    ["together", 0],
    ["staggered", delay_s],
  ] as const) {
    const told = tellBranch(trunk, stagger, delay, duration_s, pace);
    if (isFailure(told)) return told;
    cases.push(judged(told, name, stagger));
  }
  return cases;
}
