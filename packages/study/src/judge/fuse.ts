import type { FuseParameters } from "@startgap/circuit";
import type { FuseResult } from "../results.ts";
import type { Telling } from "../telling.ts";

/** Highest melt fraction and the margin 1/sqrt(it): the terms are linear in the square of the current. */
export function fuseResult(told: Telling, part: number, p: FuseParameters): FuseResult {
  const { recording, plant } = told;
  const first = recording.channels.state + plant.layout.places[part].state;
  const terms = p.melt?.share.length ?? 0;
  let melt = 0;
  let peak = 0;
  for (let row = 0; row < recording.rows; row++) {
    let sum = 0;
    for (let k = 0; k < terms; k++) sum += recording.at(row, first + k);
    melt = Math.max(melt, sum);
    peak = Math.max(peak, recording.at(row, recording.channels.current + part));
  }
  const opened = told.events.find(({ name }) => name === `${p.name}: melts`);
  return {
    part: p.name,
    meltFraction: opened === undefined ? melt : 1,
    currentMargin: melt > 0 ? 1 / Math.sqrt(opened === undefined ? melt : 1) : null,
    peakCurrent_A: peak,
    opened_s: opened?.t ?? null,
  };
}
