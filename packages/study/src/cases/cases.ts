import type { Cabinet } from "@startgap/cabinet";
import { agreed } from "../agreed.ts";
import { isFailure, type StudyFailure } from "../failure.ts";
import type { StudyOptions } from "../options.ts";
import { byDanger, gravestOf } from "../order.ts";
import type { Pace } from "../telling.ts";
import { byCurrent } from "./byCurrent.ts";
import type { CaseStory } from "./caseStory.ts";
import { firstStart } from "./firstStart.ts";
import { lowLine } from "./lowLine.ts";
import { relayClosed } from "./relayClosed.ts";
import { powerReturn, theDip } from "./restart.ts";
import type { CaseKind, CasesReport, CaseTold } from "./results.ts";
import { type Dip, type Scene, sceneOf } from "./scene.ts";
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
  /** The dip of the case "dip"; the power gone for 60 ms when silent. */
  readonly dip?: Dip;
  /** How often a held motor is tried in the case "tries in a row", 1 to 20; three times when silent. */
  readonly tries?: number;
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
  const scene = sceneOf(cabinet, options, options);
  const tolerance = options.tolerance ?? 1e-6;
  const asked = stories.filter(({ kind }) => options.only?.includes(kind) ?? true);
  const told: CaseTold[] = [];
  for (const [i, story] of asked.entries()) {
    const one = tellCase(story, scene, { tolerance, signal: options.signal });
    if (isFailure(one)) return one;
    told.push(one);
    options.onProgress?.((i + 1) / asked.length);
  }
  const findings = byDanger(told.flatMap((one) => one.findings));
  return { startgap: "cases 1", title: cabinet.title, findings, cases: told };
}

const untold = (kind: CaseKind, skipped: string): CaseTold => ({
  case: kind,
  about: "",
  skipped,
  outcome: null,
  report: null,
  findings: [],
  events: [],
});

function tellCase(story: CaseStory, scene: Scene, pace: Pace): CaseTold | StudyFailure {
  const { kind } = story;
  const skipped = scene.stagger.motors.length === 0 ? "There is no motor." : story.skip(scene);
  if (skipped !== null) return untold(kind, skipped);
  const told = story.tell(scene, pace);
  if ("failed" in told) return told;
  if ("skipped" in told) return untold(kind, told.skipped);
  const tighter = story.tell(scene, { ...pace, tolerance: pace.tolerance / 10 });
  if ("failed" in tighter) return tighter;
  const findings = byDanger(agreed(told.findings, "skipped" in tighter ? [] : tighter.findings));
  const { report, events } = told;
  return {
    case: kind,
    about: story.about(scene),
    skipped: null,
    outcome: gravestOf(findings),
    report,
    findings,
    events,
  };
}
