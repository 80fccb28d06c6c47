import type { Cabinet } from "@startgap/cabinet";
import { isFailure, type StudyFailure } from "../failure.ts";
import type { StudyOptions } from "../options.ts";
import type { Pace } from "../telling.ts";
import { byCurrent } from "./byCurrent.ts";
import { type CaseStory, confirmed, gravestOf } from "./caseStory.ts";
import { firstStart } from "./firstStart.ts";
import { lowLine } from "./lowLine.ts";
import { relayClosed } from "./relayClosed.ts";
import { powerReturn, theDip } from "./restart.ts";
import type { CaseKind, CasesReport, CaseTold } from "./results.ts";
import { BLIP, type Dip, type Scene, sceneOf } from "./scene.ts";
import { switchedOn } from "./switchOn.ts";
import { trappedHead } from "./trappedHead.ts";
import { triesInARow } from "./tries.ts";
import { stalledRotor, switchStuckClosed, switchStuckOpen } from "./untilItOpens.ts";
import { weldedContactor } from "./welded.ts";

/** Every case, from what any day brings to what a failed part does. */
const stories: readonly CaseStory[] = [
  firstStart,
  trappedHead,
  powerReturn,
  theDip,
  lowLine,
  byCurrent,
  triesInARow,
  relayClosed,
  stalledRotor,
  switchStuckClosed,
  switchStuckOpen,
  weldedContactor,
  switchedOn,
];

export const caseKinds: readonly CaseKind[] = stories.map((story) => story.kind);

export interface CasesOptions extends StudyOptions {
  /** Only these; all when silent. */
  readonly only?: readonly CaseKind[];
  /** The dip of the case "dip". */
  readonly dip?: Dip;
}

/**
 * Tells every case of a cabinet that it has, and says of the others why not.
 *
 * Each is the same cabinet under another script, or with one thing changed; each is judged at two tolerances, and a
 * verdict that they do not share becomes a caution.
 *
 * @returns every case in turn; or one sentence that says when, where and why it could not be finished
 *
 * Checked by packages/study/test/cases.
 */
export function cases(cabinet: Cabinet, options: CasesOptions = {}): CasesReport | StudyFailure {
  const scene = sceneOf(cabinet, options, options.dip ?? BLIP);
  const tolerance = options.tolerance ?? 1e-6;
  const asked = stories.filter(({ kind }) => options.only?.includes(kind) ?? true);
  const told: CaseTold[] = [];
  for (const [i, story] of asked.entries()) {
    const one = tellCase(story, scene, { tolerance, signal: options.signal });
    if (isFailure(one)) return one;
    told.push(one);
    options.onProgress?.((i + 1) / asked.length);
  }
  return { startgap: "cases 1", title: cabinet.title, cases: told };
}

function tellCase(story: CaseStory, scene: Scene, pace: Pace): CaseTold | StudyFailure {
  const skipped = scene.stagger.motors.length === 0 ? "There is no motor." : story.skip(scene);
  const base = {
    case: story.kind,
    about: "",
    skipped,
    outcome: null,
    report: null,
    findings: [],
    events: [],
  };
  if (skipped !== null) return base;
  const told = story.tell(scene, pace);
  if ("failed" in told) return told;
  const tighter = story.tell(scene, { ...pace, tolerance: pace.tolerance / 10 });
  if ("failed" in tighter) return tighter;
  const findings = confirmed(told.findings, tighter.findings);
  const outcome = gravestOf(findings);
  const { report, events } = told;
  return { ...base, about: story.about(scene), outcome, report, findings, events };
}
