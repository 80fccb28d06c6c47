import { isWithinIfStated } from "../cable/check.ts";
import type { Issue } from "../issue.ts";
import type { Line } from "./line.ts";
import type { MeterAccuracy } from "./spec.ts";

/** Ordinary hand meters: common practice, no source. */
const defaults: Required<MeterAccuracy> = {
  voltage_percent: 0.7,
  voltageCounts: 2,
  voltageCount_V: 0.1,
  current_percent: 2,
  currentCounts: 3,
  currentCount_A: 0.1,
  oneMeter: true,
};

/** Coverage: two standard deviations, about 19 times in 20. */
const COVERAGE = 2;

/** What was stated, and the default for all that was left out. */
export function accuracyOf(stated: MeterAccuracy = {}): Required<MeterAccuracy> {
  const said = Object.entries(stated).filter(([, value]) => value !== undefined);
  return { ...defaults, ...Object.fromEntries(said) };
}

export function meterProblems(stated: MeterAccuracy = {}): Issue[] {
  const issues: Issue[] = [];
  const limit = (a: string, unit: string, to: number, example: string) => ({ a, unit, from: 0, to, example });
  for (const [key, value] of [
    ["voltage", stated.voltage_percent],
    ["current", stated.current_percent],
  ] as const) {
    isWithinIfStated(issues, `meter.${key}`, value, limit("an accuracy", "%", 20, '"0.7 %"'));
  }
  for (const key of ["voltageCounts", "currentCounts"] as const) {
    isWithinIfStated(issues, `meter.${key}`, stated[key], limit("a number of counts", "", 100, "2"));
  }
  isWithinIfStated(
    issues,
    "meter.voltageCount",
    stated.voltageCount_V,
    limit("a count", "V", 100, '"0.1 V"'),
  );
  isWithinIfStated(
    issues,
    "meter.currentCount",
    stated.currentCount_A,
    limit("a count", "A", 100, '"0.1 A"'),
  );
  return issues;
}

/**
 * How far a measured drop may be off, ohm, about 19 times in 20.
 *
 * A meter's error is taken as spread evenly within its limits, so its standard deviation is the limit over
 * sqrt(3). Counts differ from reading to reading. A percentage is the same for all readings of one meter on one
 * range: it scales the difference of two voltages and does not swamp it. With different meters it differs too.
 * When the readings scatter more than the meter explains, the scatter counts.
 *
 * @param voltage_V of the readings, about
 * Checked by packages/cabinet/test/supply-readings.test.ts against random meters.
 */
export function dropError_ohm(line: Line, accuracy: Required<MeterAccuracy>, voltage_V: number): number {
  const counts_V = accuracy.voltageCounts * accuracy.voltageCount_V;
  const counts_A = accuracy.currentCounts * accuracy.currentCount_A;
  const scale = accuracy.voltage_percent / 100;
  const apart_V = accuracy.oneMeter ? 0 : scale * voltage_V;
  const each_V = Math.hypot(counts_V, apart_V, line.drop_ohm * counts_A) / Math.sqrt(3);
  const common = Math.hypot(accuracy.oneMeter ? scale : 0, accuracy.current_percent / 100) / Math.sqrt(3);
  const random_ohm = Math.max(each_V, line.scatter_V) * line.weight_perA;
  return COVERAGE * Math.hypot(random_ohm, common * line.drop_ohm);
}

/** "fair: good to +-15 %": the word a builder needs, and the figure rounded up. */
export function qualityText(relative: number, repeated: boolean): string {
  const percent = 100 * relative;
  const rounded = percent < 10 ? Math.ceil(percent) : 5 * Math.ceil(percent / 5);
  const word = percent <= 10 ? "good" : percent <= 30 ? "fair" : "rough";
  const text = `${word}: good to +-${rounded} %`;
  return repeated ? text : `${text} if the supply did not drift; read unloaded, loaded, unloaded to be sure`;
}
