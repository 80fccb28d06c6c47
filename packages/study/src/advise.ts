import { adviceFrom, type PassRange, type RelayTolerance } from "./advice.ts";
import { isFailure, type StudyFailure } from "./failure.ts";
import { otherOrderSays, otherOrderThan } from "./otherOrder.ts";
import type { DelayAdvice, DelayMap } from "./results.ts";
import { scriptFor } from "./stagger.ts";
import { durationOf, type Trunk, tellTrunkOn, tellWhole } from "./telling.ts";
import { type Trials, type Tried, trunkOf, tryAll } from "./trials.ts";

/** Halvings of one grid step when an edge of the passing range is refined: to about 0.1 ms. */
const EDGE_HALVINGS = 10;

/** The stretch to set the relay in, its edges refined, then the setting, then the other order at that setting. */
export function advise(
  trials: Trials,
  trunk: Trunk,
  tried: readonly Tried[],
  map: Omit<DelayMap, "advice">,
  relay: RelayTolerance,
): DelayAdvice | StudyFailure {
  const found = stretchOf(map.passes);
  const range = found === null ? null : refined(trials, trunk, tried, found);
  if (isFailure(range)) return range;
  const { trouble } = tried[tried.length - 1];
  const facts = { map, range, relay, motors: trials.stagger.motors.length, trouble };
  const advice = adviceFrom(facts);
  const beyond = triedBeyond(trials, map.delay_s, advice, relay);
  if (isFailure(beyond)) return beyond;
  const held =
    beyond === null || range === null ? advice : adviceFrom({ ...facts, range: { ...range, to_s: beyond } });
  return withOtherOrder(trials, tried, held);
}

/** The passing stretch of the map that ends last, as first and last index; null when no delay passes. */
export function stretchOf(passes: readonly boolean[]): { first: number; last: number } | null {
  const last = passes.lastIndexOf(true);
  return last < 0 ? null : { first: passes.lastIndexOf(false, last) + 1, last };
}

/** Both edges of a stretch, where they are not those of the map. */
function refined(
  trials: Trials,
  trunk: Trunk,
  tried: readonly Tried[],
  { first, last }: { first: number; last: number },
): PassRange | StudyFailure {
  const low =
    first === 0 ? tried[0].delay_s : edge(trials, trunk, tried[first - 1].delay_s, tried[first].delay_s);
  if (typeof low !== "number") return low;
  if (last === tried.length - 1) return { from_s: low, to_s: null };
  const high = edge(trials, trunk, tried[last + 1].delay_s, tried[last].delay_s);
  return typeof high === "number" ? { from_s: low, to_s: high } : high;
}

/** The passing side of the edge between a delay that fails and one that passes, by halving. */
function edge(trials: Trials, trunk: Trunk, fails_s: number, passes_s: number): number | StudyFailure {
  const from_s = Math.min(fails_s, passes_s);
  let [fails, passes] = [fails_s, passes_s];
  for (let count = 0; count < EDGE_HALVINGS; count++) {
    const middle = (fails + passes) / 2;
    const on = tellTrunkOn(trunk, from_s, middle, trials.pace) ?? trunkOf(trials, [middle]);
    if (isFailure(on)) return on;
    const tried = tryAll(trials, on, [middle]);
    if (isFailure(tried)) return tried;
    if (tried[0].passes) passes = middle;
    else fails = middle;
  }
  return passes;
}

/** Tries what the relay may reach beyond the map: the last delay before one that fails; null when none does. */
function triedBeyond(
  trials: Trials,
  delay_s: readonly number[],
  { recommended_s }: DelayAdvice,
  relay: RelayTolerance,
): number | null | StudyFailure {
  const longest = delay_s[delay_s.length - 1];
  const reach = (recommended_s ?? 0) * (1 + relay.long);
  if (reach <= longest) return null;
  const count = Math.ceil((reach - longest) / (longest / Math.max(1, delay_s.length - 1)));
  const delays = Array.from({ length: count }, (_, k) => longest + ((k + 1) * (reach - longest)) / count);
  const duration_s = Math.max(trials.duration_s, durationOf(trials.stagger, reach, undefined));
  const trunk = trunkOf(trials, delays);
  if (isFailure(trunk)) return trunk;
  const tried = tryAll({ ...trials, duration_s }, trunk, delays);
  if (isFailure(tried)) return tried;
  const fails = tried.findIndex((one) => !one.passes);
  return fails < 0 ? null : (delays[fails - 1] ?? longest);
}

/** Compared at the recommended delay, or at the longest where none passes. */
function withOtherOrder(
  { plant, stagger, pace, duration_s }: Trials,
  tried: readonly Tried[],
  advice: DelayAdvice,
): DelayAdvice | StudyFailure {
  const delay_s = advice.recommended_s ?? tried[tried.length - 1].delay_s;
  const asFiled = tellWhole(plant, scriptFor(stagger, delay_s), delay_s, duration_s, pace);
  if (isFailure(asFiled)) return asFiled;
  const otherOrder = otherOrderThan(asFiled, stagger, pace);
  if (isFailure(otherOrder)) return otherOrder;
  return { ...advice, otherOrder, reason: advice.reason + otherOrderSays(otherOrder) };
}
