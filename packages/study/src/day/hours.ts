import type { Most } from "./results.ts";

const HOUR_s = 3600;

/**
 * The most that falls into any hour, each of some moments counting its weight.
 *
 * The fullest hour begins at one of the moments, so that only these are tried. A moment an hour after another does not
 * share its hour.
 *
 * @param time_s ascending
 * Checked by packages/study/test/day/hours.test.ts against trying every second.
 */
export function mostInAnHour(time_s: ArrayLike<number>, weight: (k: number) => number): Most {
  let most: Most = { value: 0, at_s: 0 };
  let [sum, last] = [0, 0];
  for (let first = 0; first < time_s.length; first++) {
    while (last < time_s.length && time_s[last] < time_s[first] + HOUR_s) sum += weight(last++);
    if (sum > most.value * (1 + 1e-12)) most = { value: sum, at_s: time_s[first] };
    sum -= weight(first);
  }
  return most;
}

/** The highest of some values and when; of equals the first. */
export function highest(time_s: ArrayLike<number>, values: ArrayLike<number>): Most {
  let best = 0;
  for (let k = 1; k < values.length; k++) if (values[k] > values[best]) best = k;
  return { value: values[best] ?? 0, at_s: time_s[best] ?? 0 };
}

export function lowest(time_s: ArrayLike<number>, values: ArrayLike<number>): Most {
  let best = 0;
  for (let k = 1; k < values.length; k++) if (values[k] < values[best]) best = k;
  return { value: values[best] ?? 0, at_s: time_s[best] ?? 0 };
}
