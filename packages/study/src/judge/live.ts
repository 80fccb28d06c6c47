import type { Recording } from "../recording.ts";

/** First row at which a part is connected to the supply; the number of rows when it never is. */
export function firstLive(recording: Recording, part: number): number {
  const live = recording.channels.live + part;
  let row = 0;
  while (row < recording.rows && recording.at(row, live) === 0) row++;
  return row;
}
