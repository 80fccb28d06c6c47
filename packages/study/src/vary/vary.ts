import { type Cabinet, type RangedQuantity, variations } from "@startgap/cabinet";
import { type Circuit, plantOf } from "@startgap/circuit";
import { isFailure, type StudyFailure } from "../failure.ts";
import { type Judged, judged } from "../judge/judged.ts";
import { lowestVoltage_percent } from "../judge/lowest.ts";
import type { StudyOptions } from "../options.ts";
import type { CaseReport } from "../results.ts";
import { delayFor, staggerOf } from "../stagger.ts";
import { durationOf, type Pace, tellBranch, tellTrunk } from "../telling.ts";
import { latinHypercube, stream } from "./draws.ts";
import type { Influence, Spread, VaryReport } from "./results.ts";
import { quantile, rankCorrelation } from "./spread.ts";

export interface VaryOptions extends StudyOptions {
  /** Draws, 2 to 100,000; default 500. */
  readonly draws?: number;
  /** Start of the stream of chance; the same one gives the same draws. Default 1. */
  readonly seed?: number;
}

const DRAWS = 500;
const MOST_DRAWS = 100_000;
/** Events in one story: a contactor that still chatters by then has failed it. */
const MOST_EVENTS = 200;
/** Lowest voltages that differ by less are the same: what is left is the solver's own. */
const ALIKE_percent = 1e-3;
/** One draw in twenty lies below, one above. */
const [LOW, HIGH] = [0.05, 0.95];

/**
 * Draws every quantity that the file gives as a range, anywhere in it alike, all at once and independent of each
 * other, and tells the held-back start of each draw: does it still pass, and which of them decides.
 *
 * Limitations: assumed values stay as they are (`check --assumptions` lists them with their ranges); a dial that is
 * off is one of the ranges, so that the delay of every draw is its own unless `delay_s` sets it.
 *
 * @returns null where the file has no range; or one sentence that says when, where and why it could not be finished
 * @throws RangeError for a number of draws that is none
 *
 * Checked by packages/study/test/vary/vary.test.ts against the closed form of a resistive feeder.
 */
export function vary(cabinet: Cabinet, options: VaryOptions = {}): VaryReport | StudyFailure | null {
  const draws = options.draws ?? DRAWS;
  if (!(Number.isInteger(draws) && draws >= 2 && draws <= MOST_DRAWS))
    throw new RangeError(`invalid draws: ${draws} (expected 2 to ${MOST_DRAWS})`);
  const { ranges } = cabinet;
  if (ranges.length === 0) return null;
  const nominal = held(cabinet.circuit, options);
  if (isFailure(nominal)) return nominal;
  const varied = variations(cabinet);
  const told: { readonly values: readonly number[]; readonly judged: Judged; readonly lowest: number }[] = [];
  let refused = 0;
  for (const [i, shares] of latinHypercube(draws, ranges.length, stream(options.seed ?? 1)).entries()) {
    if (options.signal?.aborted) return { failed: "Cancelled before every draw was told.", at_s: 0 };
    const values = shares.map((share, q) => ranges[q].low + share * (ranges[q].high - ranges[q].low));
    const read = varied(values);
    if ("issues" in read) refused++;
    else {
      const one = held(read.cabinet.circuit, options);
      if (isFailure(one)) return one;
      told.push({ values, judged: one, lowest: lowestVoltage_percent(one.report, read.cabinet.circuit) });
    }
    options.onProgress?.((i + 1) / draws);
  }
  const judgements = told.map((one) => one.judged);
  return {
    startgap: "vary 1",
    title: cabinet.title,
    delay_s: nominal.report.delay_s,
    draws,
    refused,
    passes: judgements.filter(({ findings }) => findings.every(({ outcome }) => outcome !== "fail")).length,
    fails: failsOf(judgements),
    spreads: spreadsOf(
      nominal.report,
      judgements.map(({ report }) => report),
    ),
    influences: influencesOf(ranges, told),
  };
}

/** The held-back start; the only one where there is nothing to hold back. */
function held(circuit: Circuit, options: VaryOptions): Judged | StudyFailure {
  const stagger = staggerOf(circuit);
  const pace: Pace = {
    tolerance: options.tolerance ?? 1e-6,
    signal: options.signal,
    maxEvents: MOST_EVENTS,
  };
  const delay_s = delayFor(stagger, options.delay_s);
  const duration_s = durationOf(stagger, delay_s, options.duration_s);
  const until_s = stagger.possible ? delay_s : duration_s;
  const trunk = tellTrunk(plantOf(circuit), stagger, until_s, stagger.possible ? [delay_s] : [], pace);
  if (isFailure(trunk)) return trunk;
  if (!stagger.possible) return judged(trunk, "one", stagger);
  const told = tellBranch(trunk, stagger, delay_s, duration_s, pace);
  return isFailure(told) ? told : judged(told, "staggered", stagger);
}

function failsOf(judgements: readonly Judged[]): VaryReport["fails"] {
  const found = new Map<string, { finding: string; part: string; draws: number }>();
  for (const { findings } of judgements) {
    for (const { finding, part, outcome } of findings) {
      if (outcome !== "fail") continue;
      const key = JSON.stringify([finding, part]);
      const before = found.get(key)?.draws ?? 0;
      found.set(key, { finding, part, draws: before + 1 });
    }
  }
  return [...found.values()].sort((a, b) => b.draws - a.draws);
}

type Figure = Pick<Spread, "part" | "quantity" | "unit"> & { readonly value: number | null };

const figuresOf = ({ motors, points, fuses, contactors }: CaseReport): Figure[] => [
  ...motors.flatMap(({ part, lowestVoltage_V, runUp_s }): Figure[] => [
    { part, quantity: "lowest voltage", unit: "V", value: lowestVoltage_V },
    { part, quantity: "run-up", unit: "s", value: runUp_s },
  ]),
  ...points.map(
    ({ part, lowestVoltage_V }): Figure => ({
      part,
      quantity: "lowest voltage",
      unit: "V",
      value: lowestVoltage_V,
    }),
  ),
  ...fuses.map(
    ({ part, meltFraction }): Figure => ({ part, quantity: "melt fraction", unit: "", value: meltFraction }),
  ),
  ...contactors.map(
    ({ part, lowestCoil_V }): Figure => ({
      part,
      quantity: "lowest coil voltage",
      unit: "V",
      value: lowestCoil_V,
    }),
  ),
];

function spreadsOf(nominal: CaseReport, reports: readonly CaseReport[]): Spread[] {
  const columns = reports.map(figuresOf);
  return figuresOf(nominal).map(({ value, ...figure }, i) => {
    const known = columns.flatMap((column) => column[i].value ?? []).sort((a, b) => a - b);
    const at = (share: number): number | null => (known.length === 0 ? null : quantile(known, share));
    return { ...figure, nominal: value, low: at(LOW), median: at(0.5), high: at(HIGH), known: known.length };
  });
}

function influencesOf(
  ranges: readonly RangedQuantity[],
  told: readonly { readonly values: readonly number[]; readonly lowest: number }[],
): Influence[] {
  const lowest = told.map((one) => Math.round(one.lowest / ALIKE_percent));
  return ranges
    .map(({ part, path, low, high, unit }, q) => {
      const correlation = rankCorrelation(
        told.map(({ values }) => values[q]),
        lowest,
      );
      return { part, path, low, high, unit, correlation };
    })
    .sort((a, b) => Math.abs(b.correlation) - Math.abs(a.correlation));
}
