/** Median of five timed batches, after warming up; milliseconds a call. */
export interface Measured {
  readonly median_ms: number;
  readonly least_ms: number;
  readonly most_ms: number;
}

/** Until the compiler has settled: seen to take a thousand runs of the reference problem. */
const WARM_UP_ms = 400;

/** Time of this process alone, which other work on the machine does not lengthen. */
export const processor_ms = (): number => process.cpuUsage().user / 1000;
const wall_ms = (): number => performance.now();

export function measure(
  work: () => void,
  callsInBatch: number,
  batches = 5,
  clock_ms: () => number = wall_ms,
): Measured {
  const batch = (): number => {
    const start = clock_ms();
    for (let i = 0; i < callsInBatch; i++) work();
    return (clock_ms() - start) / callsInBatch;
  };
  const warm = performance.now() + WARM_UP_ms;
  do batch();
  while (performance.now() < warm);
  const times = Array.from({ length: batches }, batch).sort((a, b) => a - b);
  return { median_ms: times[batches >> 1], least_ms: times[0], most_ms: times[batches - 1] };
}

/** One number for a whole result: a faster answer that differs in the ninth digit shows. */
export function checksum(values: Iterable<number>): string {
  let sum = 0;
  let k = 1;
  for (const value of values) sum += value * Math.sin(k++);
  return sum.toPrecision(9);
}

export const row = (name: string, timed: Measured, note: string): string =>
  `${name.padEnd(44)} ${timed.median_ms.toFixed(3).padStart(9)} ms  (${timed.least_ms.toFixed(3)} to ${timed.most_ms.toFixed(3)})  ${note}`;
