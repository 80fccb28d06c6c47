import type { Cabinet } from "@startgap/cabinet";
import { plantOf } from "@startgap/circuit";
import type { RelayTolerance } from "./advice.ts";
import { advise } from "./advise.ts";
import { isFailure, type StudyFailure } from "./failure.ts";
import { RELAY_TOLERANCE } from "./limits.ts";
import type { StudyOptions } from "./options.ts";
import type { DelayMap } from "./results.ts";
import { staggerOf } from "./stagger.ts";
import { durationOf, type Pace } from "./telling.ts";
import { type Trials, type Tried, trunkOf, tryAll } from "./trials.ts";

const LONGEST_DELAY_s = 12;
const DELAY_STEP_s = 0.1;
/** Events in one story of the map: a contactor that still chatters by then has failed it. */
const MOST_EVENTS = 60;

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
  const duration_s = durationOf(stagger, delays[delays.length - 1], options.duration_s);
  const trials: Trials = { plant, stagger, pace, duration_s };
  const trunk = trunkOf(trials, delays);
  if (isFailure(trunk)) return trunk;
  const tried = tryAll(trials, trunk, delays, options.onProgress);
  if (isFailure(tried)) return tried;
  const columns = columnsOf(tried);
  const advice = advise(trials, trunk, tried, columns, relayOf(cabinet));
  return isFailure(advice) ? advice : { ...columns, advice };
}

/** Delays k times the step, never accumulated. */
function gridOf(options: StudyOptions): number[] {
  const step = options.delayStep_s ?? DELAY_STEP_s;
  const count = Math.round((options.longestDelay_s ?? LONGEST_DELAY_s) / step);
  return Array.from({ length: count + 1 }, (_, k) => Number((k * step).toPrecision(12)));
}

/** The widest tolerance that a relay of the file states; the usual one where none does. */
export function relayOf({ relays }: Cabinet): RelayTolerance {
  const stated = relays
    .map(({ delay_s }) => delay_s)
    .filter(({ nominal, low, high }) => nominal > 0 && low < high);
  if (stated.length === 0) return { short: RELAY_TOLERANCE, long: RELAY_TOLERANCE };
  return {
    short: Math.max(...stated.map(({ nominal, low }) => 1 - low / nominal)),
    long: Math.max(...stated.map(({ nominal, high }) => high / nominal - 1)),
  };
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
    chatters: tried.map((one) => one.chatters),
    passes: tried.map((one) => one.passes),
  };
}
