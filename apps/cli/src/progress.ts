import type { Io } from "./io.ts";

/** Back to the start of the line, clear it: ECMA-48 section 8.3.41. */
const CLEAR = "\r\u001b[K";

/** Work that ends sooner needs no progress; nobody reads faster than this either. */
const PATIENCE_ms = 400;
const BEAT_ms = 100;

/** Runs work that reports its progress: as a line that a terminal overwrites once the work is long, else silently. */
export function watched<T>(
  io: Io,
  what: string,
  work: (onProgress: ((fraction: number) => void) | undefined) => T,
): T {
  if (!io.err.terminal) return work(undefined);
  let due = io.clock_ms() + PATIENCE_ms;
  let shown = false;
  const show = (fraction: number): void => {
    const now = io.clock_ms();
    if (now < due) return;
    due = now + BEAT_ms;
    shown = true;
    io.err.write(`${CLEAR}${what} ${Math.floor(100 * fraction)} %`);
  };
  try {
    return work(show);
  } finally {
    if (shown) io.err.write(CLEAR);
  }
}
