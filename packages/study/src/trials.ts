import type { CircuitPlant } from "@startgap/circuit";
import { isFailure, type StudyFailure } from "./failure.ts";
import { judged } from "./judge/judged.ts";
import type { CaseReport } from "./results.ts";
import { type Base, tellShifted } from "./shifted.ts";
import type { Stagger } from "./stagger.ts";
import { type Pace, type Telling, type Trunk, tellBranch, tellTrunk } from "./telling.ts";

/** One delay tried: its report and whether nothing in it fails. */
export interface Tried {
  readonly delay_s: number;
  readonly report: CaseReport;
  readonly passes: boolean;
  /** True when the story was given up as endless chatter. */
  readonly chatters: boolean;
  /** The gravest thing that fails, in a sentence; null when nothing does. */
  readonly trouble: string | null;
}

/** What every trial shares. */
export interface Trials {
  readonly plant: CircuitPlant;
  readonly stagger: Stagger;
  readonly pace: Pace;
  readonly duration_s: number;
}

/** The trunk of ascending delays: no longer than the last of them. */
export const trunkOf = ({ plant, stagger, pace }: Trials, delays: readonly number[]): Trunk | StudyFailure =>
  tellTrunk(plant, stagger, delays[delays.length - 1], delays, pace);

/** Tries ascending delays on one trunk. */
export function tryAll(
  trials: Trials,
  trunk: Trunk,
  delays: readonly number[],
  onProgress?: (fraction: number) => void,
): readonly Tried[] | StudyFailure {
  const { stagger, pace, duration_s } = trials;
  const tried: Tried[] = [];
  let base: Base | null = null;
  let spare: Float64Array | undefined;
  for (const [i, delay_s] of delays.entries()) {
    const moved: Telling | null = base && tellShifted(trunk, stagger, base, delay_s, pace.tolerance, spare);
    const told: Telling | StudyFailure = moved ?? tellBranch(trunk, stagger, delay_s, duration_s, pace);
    if (isFailure(told)) return told;
    const from = trunk.moments.get(delay_s);
    if (moved !== null) spare = told.recording.buffer;
    else if (from !== undefined) base = { told, from };
    const { report, findings } = judged(told, "staggered", stagger);
    const trouble = findings.find((finding) => finding.outcome === "fail")?.says ?? null;
    const chatters = told.outcome.ending === "endless chatter";
    tried.push({ delay_s, report, passes: trouble === null, chatters, trouble });
    onProgress?.((i + 1) / delays.length);
  }
  return tried;
}
