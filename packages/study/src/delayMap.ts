import type { Cabinet } from "@startgap/cabinet";
import { plantOf } from "@startgap/circuit";
import { adviceFrom } from "./advice.ts";
import { isFailure, type StudyFailure } from "./failure.ts";
import { findingsOf } from "./findings.ts";
import { caseReport } from "./judge/case.ts";
import { belowTimes } from "./judge/times.ts";
import { RELAY_TOLERANCE } from "./limits.ts";
import type { StudyOptions } from "./options.ts";
import type { CaseReport, DelayMap } from "./results.ts";
import { type Stagger, staggerOf } from "./stagger.ts";
import { durationOf, type Pace, type Trunk, tellBranch, tellTrunk } from "./telling.ts";

const LONGEST_DELAY_s = 12;
const DELAY_STEP_s = 0.1;
/** Events in one story of the map: a contactor that still chatters by then has failed it. */
const MOST_EVENTS = 120;
/** Halvings of one grid step when the edge of the passing range is refined: to about 0.1 ms. */
const EDGE_HALVINGS = 10;

/** One delay tried: its report and whether nothing in it fails. */
interface Tried {
  readonly delay_s: number;
  readonly report: CaseReport;
  readonly passes: boolean;
  readonly buffer: Float64Array;
}

/**
 * Runs the stagger over a grid of delays: the first motor once, every delay branching from its state.
 *
 * @returns the map with its advice; null when there is nothing to stagger; or why it could not be finished
 */
export function delayMap(cabinet: Cabinet, options: StudyOptions = {}): DelayMap | StudyFailure | null {
  const stagger = staggerOf(cabinet.circuit);
  if (!stagger.possible) return null;
  const pace: Pace = { tolerance: options.tolerance ?? 1e-6, signal: options.signal, maxEvents: MOST_EVENTS };
  const delays = gridOf(options);
  const plant = plantOf(cabinet.circuit);
  const duration = durationOf(stagger, delays[delays.length - 1], options.duration_s);
  const trunk = tellTrunk(plant, stagger, duration, delays, pace);
  if (isFailure(trunk)) return trunk;
  const tried: Tried[] = [];
  for (const [i, delay_s] of delays.entries()) {
    const one = tryDelay(trunk, stagger, delay_s, pace, tried[i - 1]?.buffer);
    if (isFailure(one)) return one;
    tried.push(one);
    options.onProgress?.((i + 1) / delays.length);
  }
  const edge = refinedEdge(trunk, stagger, tried, pace);
  if (edge !== null && typeof edge !== "number") return edge;
  const columns = columnsOf(tried);
  return { ...columns, advice: adviceFrom(columns, edge, toleranceOf(cabinet)) };
}

/** Delays k times the step, never accumulated. */
function gridOf(options: StudyOptions): number[] {
  const step = options.delayStep_s ?? DELAY_STEP_s;
  const count = Math.round((options.longestDelay_s ?? LONGEST_DELAY_s) / step);
  return Array.from({ length: count + 1 }, (_, k) => Number((k * step).toPrecision(12)));
}

function tryDelay(
  trunk: Trunk,
  stagger: Stagger,
  delay_s: number,
  pace: Pace,
  buffer?: Float64Array,
): Tried | StudyFailure {
  const told = tellBranch(trunk, stagger, delay_s, trunk.duration_s, pace, buffer);
  if (isFailure(told)) return told;
  const report = caseReport(told, "staggered");
  const { circuit } = trunk.plant.layout;
  const findings = findingsOf({ report, circuit, below: belowTimes(told) });
  const passes = findings.every((finding) => finding.outcome !== "fail");
  return { delay_s, report, passes, buffer: told.recording.buffer };
}

/** The edge between the last delay that fails and the next, which passes, by halving. */
function refinedEdge(
  trunk: Trunk,
  stagger: Stagger,
  tried: readonly Tried[],
  pace: Pace,
): number | null | StudyFailure {
  const last = tried.map((one) => one.passes).lastIndexOf(false);
  if (last < 0 || last === tried.length - 1) return null;
  let fails = tried[last].delay_s;
  let passes = tried[last + 1].delay_s;
  for (let count = 0; count < EDGE_HALVINGS; count++) {
    const middle = (fails + passes) / 2;
    const again = tellTrunk(trunk.plant, stagger, middle, [middle], pace);
    if (isFailure(again)) return again;
    const one = tryDelay({ ...again, duration_s: trunk.duration_s }, stagger, middle, pace);
    if (isFailure(one)) return one;
    if (one.passes) passes = middle;
    else fails = middle;
  }
  return passes;
}

function toleranceOf(cabinet: Cabinet): number {
  const stated = cabinet.relays
    .filter(({ delay_s }) => delay_s.nominal > 0 && delay_s.low < delay_s.nominal)
    .map(({ delay_s }) => 1 - delay_s.low / delay_s.nominal);
  return stated.length > 0 ? Math.max(...stated) : RELAY_TOLERANCE;
}

function columnsOf(tried: readonly Tried[]): Omit<DelayMap, "advice"> {
  const reports = tried.map((one) => one.report);
  const [first] = reports;
  return {
    delay_s: tried.map((one) => one.delay_s),
    motors: first.motors.map(({ part }, i) => ({
      part,
      lowestVoltage_V: reports.map((report) => report.motors[i].lowestVoltage_V),
      runUp_s: reports.map((report) => report.motors[i].runUp_s),
    })),
    points: first.points.map(({ part, nominal_V }, i) => ({
      part,
      nominal_V,
      lowestVoltage_V: reports.map((report) => report.points[i].lowestVoltage_V),
    })),
    fuses: first.fuses.map(({ part }, i) => ({
      part,
      meltFraction: reports.map((report) => report.fuses[i].meltFraction),
    })),
    contactors: first.contactors.map(({ part }, i) => ({
      part,
      dropOuts: reports.map((report) => report.contactors[i].dropOuts),
    })),
    passes: tried.map((one) => one.passes),
  };
}
