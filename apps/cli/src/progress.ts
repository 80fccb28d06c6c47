import type { Io } from "./io.ts";

/** Back to the start of the line, clear it: ECMA-48 section 8.3.41. */
const CLEAR = "\r\u001b[K";

/** Runs work that reports its progress: as a line that a terminal overwrites, silently elsewhere. */
export function watched<T>(
  io: Io,
  what: string,
  work: (onProgress: ((fraction: number) => void) | undefined) => T,
): T {
  if (!io.err.terminal) return work(undefined);
  let shown = "";
  const show = (fraction: number): void => {
    const line = `${what} ${Math.floor(100 * fraction)} %`;
    if (line !== shown) io.err.write(`${CLEAR}${line}`);
    shown = line;
  };
  try {
    return work(show);
  } finally {
    if (shown !== "") io.err.write(CLEAR);
  }
}
