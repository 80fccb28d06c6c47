import { kneeOf } from "./knee.ts";
import { DIAL_STEP_s } from "./limits.ts";
import type { DelayAdvice, DelayMap } from "./results.ts";
import { percent, seconds, setting } from "./words.ts";

/** A stretch of delays of which every one tried passes. */
export interface PassRange {
  readonly from_s: number;
  /** Null where it goes on to the longest delay tried. */
  readonly to_s: number | null;
}

/** How far a relay may be off its dial: 0.1 for 10 % short, or long. */
export interface RelayTolerance {
  readonly short: number;
  readonly long: number;
}

/** What advice is given on. */
export interface AdviceFacts {
  readonly map: Omit<DelayMap, "advice">;
  /** The stretch to set the relay in, its edges refined; null when no delay passes. */
  readonly range: PassRange | null;
  readonly relay: RelayTolerance;
  readonly motors: number;
  /** What fails at the longest delay, in a sentence; null when nothing does. */
  readonly trouble: string | null;
}

/**
 * The shortest delay from which every longer one passes, and the dial setting for it.
 *
 * The setting is the smallest multiple of half a second at which the relay passes at both ends of its
 * tolerance. Where longer delays fail again, it must stay below these too.
 *
 * Limitation: a delay that fails between two neighbouring ones that pass is not seen.
 */
export function adviceFrom(facts: AdviceFacts): DelayAdvice {
  const { map, range, relay } = facts;
  const knee_s = kneeOf(map);
  const longest = map.delay_s[map.delay_s.length - 1];
  if (range === null) {
    return {
      recommended_s: null,
      shortest_s: null,
      until_s: null,
      knee_s,
      reason: noneHelps(longest, facts),
    };
  }
  const recommended_s = settingIn(range, relay);
  return {
    recommended_s,
    shortest_s: range.from_s,
    until_s: range.to_s,
    knee_s,
    reason: why(range, recommended_s, longest, facts),
  };
}

/** Settings that differ by less than this share of a step are the same. */
const SAME = 1e-9;

/** The smallest dial setting that passes over the relay's whole tolerance; null when none does. */
function settingIn({ from_s, to_s }: PassRange, relay: RelayTolerance): number | null {
  const steps = Math.max(0, Math.ceil(from_s / (1 - relay.short) / DIAL_STEP_s - SAME));
  const set = steps * DIAL_STEP_s;
  return to_s !== null && set * (1 + relay.long) > to_s + SAME * DIAL_STEP_s ? null : set;
}

const noneHelps = (longest: number, { trouble }: AdviceFacts): string =>
  `No delay up to ${seconds(longest)} helps.${trouble === null ? "" : ` At ${seconds(longest)}: ${trouble}`}`;

function why(range: PassRange, set: number | null, longest: number, facts: AdviceFacts): string {
  const { from_s, to_s } = range;
  const all = facts.motors === 2 ? "Both" : `All ${facts.motors} motors`;
  if (from_s === 0) {
    return to_s === null
      ? `${all} may start together: nothing fails at any delay up to ${seconds(longest)}.`
      : `${all} may start together: delays up to ${seconds(to_s)} pass, longer ones fail.`;
  }
  const stretch =
    to_s === null
      ? `Every delay from ${seconds(from_s)} to ${seconds(longest)} passes`
      : `Delays from ${seconds(from_s)} to ${seconds(to_s)} pass, longer ones fail`;
  const off = offBy(facts.relay);
  return set === null
    ? `${stretch}; no setting in steps of ${setting(DIAL_STEP_s)} stays there with the relay ${off}.`
    : `${stretch}; ${setting(set)} on the dial keeps that with the relay ${off}.`;
}

function offBy({ short, long }: RelayTolerance): string {
  const [less, more] = [percent(100 * short), percent(100 * long)];
  return less === more ? `${less} short or long` : `${less} short or ${more} long`;
}
