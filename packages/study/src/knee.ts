import type { DelayMap } from "./results.ts";

/** A longer delay gains nothing worth waiting for: this much of nominal voltage and of melt fraction. */
const WORTH = 0.01;

type Quantities = Omit<DelayMap, "advice">;

/** The smallest delay from which no longer one gains 1 % on the worst voltage or on melt. */
export function kneeOf(map: Quantities): number | null {
  const scores = map.delay_s.map((_, i) => scoreAt(map, i));
  let knee: number | null = null;
  let [volts, melt] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (let i = scores.length - 1; i >= 0; i--) {
    volts = Math.max(volts, scores[i].volts);
    melt = Math.min(melt, scores[i].melt);
    if (volts - scores[i].volts < WORTH && scores[i].melt - melt < WORTH) knee = map.delay_s[i];
  }
  return knee;
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
