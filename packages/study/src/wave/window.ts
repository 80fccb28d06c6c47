import type { Circuit } from "@startgap/circuit";
import type { StudyFailure } from "../failure.ts";
import { SAMPLES_A_CYCLE } from "./samples.ts";
import type { WaveWindow } from "./waveStory.ts";

/** Samples of one quantity of one part: seven numbers each, about 170 MB in all. */
const MOST_SAMPLES = 3_000_000;
/** A story is told cycle by cycle from 0 s on, whatever the window. */
const LATEST_s = 600;

/** Longest window of which every sample can be kept, s. */
export function longestWindow_s({ parts }: Circuit): number {
  const [supply] = parts;
  const frequency_Hz = supply?.is === "supply" ? supply.frequency_Hz : 60;
  return Math.floor(MOST_SAMPLES / (SAMPLES_A_CYCLE * frequency_Hz * parts.length));
}

/** A sentence on a window that cannot be told; null for one that can. */
export function tooLong(circuit: Circuit, { from_s, to_s }: WaveWindow): StudyFailure | null {
  const longest = longestWindow_s(circuit);
  if (to_s > LATEST_s) {
    return { failed: `A waveform is told up to ${LATEST_s} s; the window ends at ${to_s} s.`, at_s: 0 };
  }
  if (to_s - from_s <= longest) return null;
  const says = `The window is ${to_s - from_s} s long; of this cabinet at most ${longest} s of waveform can be kept.`;
  return { failed: `${says} Choose when it begins and ends.`, at_s: 0 };
}
