import { DIAL_STEP_s } from "./limits.ts";
import type { DelayAdvice, DelayMap } from "./results.ts";
import { percent, seconds } from "./words.ts";

/** A longer delay gains nothing worth waiting for: this much of nominal voltage and of melt fraction. */
const WORTH = 0.01;

type Quantities = Omit<DelayMap, "advice">;

/**
 * The shortest delay from which every longer one passes, and the dial setting for it.
 *
 * The setting is the smallest multiple of half a second whose low end, by the relay's tolerance, is no
 * shorter.
 *
 * @param map       delays in ascending order with their verdicts
 * @param edge_s    refined edge between the last failing delay and the first of those that pass; null when
 *                  every delay passes or none does
 * @param tolerance relative setting error of the relay, 0.1 for 10 %
 */
export function adviceFrom(map: Quantities, edge_s: number | null, tolerance: number): DelayAdvice {
  const { passes, delay_s } = map;
  const lastFail = passes.lastIndexOf(false);
  const knee = kneeOf(map);
  if (lastFail === passes.length - 1) {
    return { recommended_s: null, shortest_s: null, knee_s: knee, reason: noDelayHelps(delay_s) };
  }
  const shortest = lastFail < 0 ? delay_s[0] : (edge_s ?? delay_s[lastFail + 1]);
  if (shortest === 0) {
    return {
      recommended_s: 0,
      shortest_s: 0,
      knee_s: knee,
      reason: "Both may start together: nothing fails at any delay.",
    };
  }
  const least = shortest / (1 - tolerance);
  const recommended = Math.ceil(least / DIAL_STEP_s - 1e-9) * DIAL_STEP_s;
  return {
    recommended_s: recommended,
    shortest_s: shortest,
    knee_s: knee,
    reason: why(shortest, recommended, tolerance),
  };
}

const noDelayHelps = (delay_s: readonly number[]): string =>
  `No delay up to ${seconds(delay_s[delay_s.length - 1])} helps: something fails even when each motor starts alone.`;

const why = (shortest: number, recommended: number, tolerance: number): string =>
  `Every delay from ${seconds(shortest)} on passes; ${seconds(recommended)} on the dial keeps that with the relay ` +
  `${percent(100 * tolerance)} short.`;

/** The smallest delay after which every longer one gains less than 1 % on the worst voltage and on melt. */
function kneeOf(map: Quantities): number | null {
  const scores = map.delay_s.map((_, i) => scoreAt(map, i));
  const best = scores[scores.length - 1];
  if (best === undefined) return null;
  let knee = scores.length - 1;
  while (
    knee > 0 &&
    Math.abs(scores[knee - 1].volts - best.volts) < WORTH &&
    scores[knee - 1].melt - best.melt < WORTH
  ) {
    knee--;
  }
  return map.delay_s[knee];
}

/** Worst point in per unit of its own best over the map, and highest melt fraction. */
function scoreAt(map: Quantities, i: number): { volts: number; melt: number } {
  const points = map.points.map((point) => point.lowestVoltage_V[i] / point.nominal_V);
  const motors = map.motors.map((motor) => {
    const best = Math.max(...motor.lowestVoltage_V.map((v) => v ?? 0));
    return best > 0 ? (motor.lowestVoltage_V[i] ?? 0) / best : 1;
  });
  const melts = map.fuses.map((fuse) => fuse.meltFraction[i]);
  return { volts: Math.min(1, ...points, ...motors), melt: Math.max(0, ...melts) };
}
