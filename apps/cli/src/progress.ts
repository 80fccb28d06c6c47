import type { Io } from "./io.ts";

/** Back to the start of the line, clear it: ECMA-48 section 8.3.41. */
const CLEAR = "\r\u001b[K";

/** Work that ends sooner needs no progress; nobody reads faster than this either. */
const PATIENCE_ms = 400;
const BEAT_ms = 100;

interface Line {
  show(fraction: number): void;
  clear(): void;
}

/** A line that a terminal overwrites once the work is long. */
function lineOf(io: Io, what: string): Line {
  let due = io.clock_ms() + PATIENCE_ms;
  let shown = false;
  return {
    show(fraction) {
      const now = io.clock_ms();
      if (now < due) return;
      due = now + BEAT_ms;
      shown = true;
      io.err.write(`${CLEAR}${what} ${Math.floor(100 * fraction)} %`);
    },
    clear() {
      if (shown) io.err.write(CLEAR);
    },
  };
}

/** Runs work that reports its progress: as a line that a terminal overwrites once the work is long, else silently. */
export function watched<T>(
  io: Io,
  what: string,
  work: (onProgress: ((fraction: number) => void) | undefined) => T,
): T {
  if (!io.err.terminal) return work(undefined);
  const line = lineOf(io, what);
  try {
    return work(line.show);
  } finally {
    line.clear();
  }
}

/** The same for work in steps that hand out how much is done: between two of them an interrupt is heard. */
export async function watchedSteps<T>(io: Io, what: string, steps: Iterator<number, T>): Promise<T> {
  const line = io.err.terminal ? lineOf(io, what) : null;
  try {
    for (;;) {
      const { done, value } = steps.next();
      if (done) return value;
      line?.show(value);
      await new Promise(setImmediate);
    }
  } finally {
    line?.clear();
  }
}
