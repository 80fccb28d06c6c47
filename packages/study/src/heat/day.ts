import type { Day } from "@startgap/cabinet";

const HOUR_s = 3600;
const DAY_s = 24 * HOUR_s;
const OMEGA_radps = (2 * Math.PI) / DAY_s;
/** Warmest time of the day: common practice, no source. */
const WARMEST_s = 15 * HOUR_s;

export const HOURS: readonly number[] = Array.from({ length: 25 }, (_, hour) => hour);

/** Air outside at an hour: a cosine between the coldest and the warmest, warmest at 15 h. */
export const airAt_C = ({ night_C, day_C }: Day, hour: number): number =>
  (night_C + day_C) / 2 + ((day_C - night_C) / 2) * Math.cos(OMEGA_radps * (hour * HOUR_s - WARMEST_s));

/**
 * Temperature of a body with one time constant in air that swings over the day, settled: the swing of the air, smaller by
 * sqrt(1 + (omega tau)^2) and later by atan(omega tau)/omega, and its own rise on top.
 *
 * Checked by packages/study/test/heatDay.test.ts against step-by-step integration.
 */
export function bodyAt_C(air: Day, rise_K: number, tau_s: number, hour: number): number {
  const lag = OMEGA_radps * tau_s;
  const mean = (air.night_C + air.day_C) / 2;
  const swing = (air.day_C - air.night_C) / 2 / Math.hypot(1, lag);
  const late = Math.atan(lag);
  return mean + rise_K + swing * Math.cos(OMEGA_radps * (hour * HOUR_s - WARMEST_s) - late);
}
