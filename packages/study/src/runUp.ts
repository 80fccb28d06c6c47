import type { Recording } from "./recording.ts";

/** Run-up ends at this part of the way from rest to the speed at which the motor settles. */
const UP = 0.95;

/**
 * The moment a recorded quantity first passes a level upwards, by the cubic through four samples about it.
 *
 * @param from first row to look at
 * @returns time in seconds, or null when the level is never passed
 */
export function passes_s(recording: Recording, channel: number, level: number, from: number): number | null {
  for (let row = Math.max(1, from); row < recording.rows; row++) {
    const before = recording.at(row - 1, channel);
    if (before < level && recording.at(row, channel) >= level) return between(recording, channel, level, row);
  }
  return null;
}

/** Up to two samples on each side, none beyond a jump. */
function between(recording: Recording, channel: number, level: number, row: number): number {
  const rows = [row - 1, row];
  const time = (at: number): number => recording.at(at, 0);
  if (row >= 2 && time(row - 2) < time(row - 1)) rows.unshift(row - 2);
  if (row + 1 < recording.rows && time(row + 1) > time(row)) rows.push(row + 1);
  const t = rows.map(time);
  const v = rows.map((at) => recording.at(at, channel));
  let [low, high] = [time(row - 1), time(row)];
  for (let count = 0; count < 60 && high - low > 1e-12; count++) {
    const middle = (low + high) / 2;
    if (through(t, v, middle) < level) low = middle;
    else high = middle;
  }
  return high;
}

/** The polynomial through given points (Lagrange). */
function through(t: readonly number[], v: readonly number[], at: number): number {
  return t.reduce((sum, ti, i) => {
    const weight = t.reduce((product, tj, j) => (i === j ? product : (product * (at - tj)) / (ti - tj)), 1);
    return sum + weight * v[i];
  }, 0);
}

/** Run-up time from closing; null when the speed does not settle or never came there. */
export function runUp_s(
  recording: Recording,
  speedChannel: number,
  closedRow: number,
  settles: boolean,
): number | null {
  const final = recording.at(recording.rows - 1, speedChannel);
  if (!settles || final <= 0) return null;
  const up = passes_s(recording, speedChannel, UP * final, closedRow);
  return up === null ? null : up - recording.at(closedRow, 0);
}
