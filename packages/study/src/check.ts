import type { Cabinet } from "@startgap/cabinet";
import { type Circuit, plantOf } from "@startgap/circuit";
import { delayMap } from "./delayMap.ts";
import { isFailure, type StudyFailure } from "./failure.ts";
import { findingsOf } from "./findings.ts";
import { caseReport } from "./judge/case.ts";
import { belowTimes } from "./judge/times.ts";
import type { StudyOptions } from "./options.ts";
import type { CaseName, CaseReport, Check, DelayAdvice, Finding } from "./results.ts";
import { type Stagger, staggerOf } from "./stagger.ts";
import { storyOf } from "./story.ts";
import { durationOf, type Pace, type Telling, tellBranch, tellTrunk } from "./telling.ts";

/** Delay of the staggered case when neither the file nor the caller states one. */
const USUAL_DELAY_s = 6;

interface Judged {
  readonly name: CaseName;
  readonly told: Telling;
  readonly report: CaseReport;
  readonly findings: readonly Finding[];
}

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
  const judged = judgeCases(cabinet.circuit, stagger, options, { tolerance, signal: options.signal });
  if (isFailure(judged)) return judged;
  const tighter = judgeCases(cabinet.circuit, stagger, options, {
    tolerance: tolerance / 10,
    signal: options.signal,
  });
  if (isFailure(tighter)) return tighter;
  const map = options.withMap === false ? null : delayMap(cabinet, { ...options, duration_s: undefined });
  if (map !== null && isFailure(map)) return map;
  const findings = judged.flatMap((one, i) => agreed(one.findings, tighter[i].findings));
  return {
    report: {
      startgap: "check 1",
      title: cabinet.title,
      cases: judged.map((one) => one.report),
      delay: map?.advice ?? (stagger.possible ? notAsked : nothingToDelay),
      findings,
    },
    stories: judged.map((one) => storyOf(one.told, one.name)),
    map,
  };
}

const notAsked: DelayAdvice = {
  recommended_s: null,
  shortest_s: null,
  knee_s: null,
  reason: "The delay map was not asked for.",
};

const nothingToDelay: DelayAdvice = {
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
  const delay_s = options.delay_s ?? stagger.stated_s ?? USUAL_DELAY_s;
  const duration_s = durationOf(stagger, delay_s, options.duration_s);
  const trunk = tellTrunk(plant, stagger, duration_s, stagger.possible ? [delay_s] : [], pace);
  if (isFailure(trunk)) return trunk;
  const judged = [judge("one", trunk)];
  if (!stagger.possible) return judged;
  for (const [name, delay] of [
    ["together", 0],
    ["staggered", delay_s],
  ] as const) {
    const told = tellBranch(trunk, stagger, delay, duration_s, pace);
    if (isFailure(told)) return told;
    judged.push(judge(name, told));
  }
  return judged;
}

function judge(name: CaseName, told: Telling): Judged {
  const report = caseReport(told, name);
  const { circuit } = told.plant.layout;
  return { name, told, report, findings: findingsOf({ report, circuit, below: belowTimes(told) }) };
}

/** Keeps a verdict that a tenfold tighter tolerance confirms. */
function agreed(findings: readonly Finding[], tighter: readonly Finding[]): Finding[] {
  return findings.map((finding, i) =>
    tighter[i]?.outcome === finding.outcome
      ? finding
      : { ...finding, outcome: "caution", says: `${finding.says} Too close to its limit to call.` },
  );
}
