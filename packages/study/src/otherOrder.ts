import type { Circuit } from "@startgap/circuit";
import { isFailure, type StudyFailure } from "./failure.ts";
import { judged, passes } from "./judge/judged.ts";
import { lowestVoltage_percent } from "./judge/lowest.ts";
import type { OtherOrder } from "./results.ts";
import { otherWayRound, type Stagger } from "./stagger.ts";
import { type Pace, type Telling, tellWhole } from "./telling.ts";
import { percent } from "./words.ts";

/** Gain of the lowest voltage, percent, from which another order is worth telling. */
const WORTH_percent = 1;

/**
 * Whether two motors start better the other way round: the same delay, the second first.
 *
 * @param asFiled the story in the order of the file
 * @returns null unless there are two motors and a delay between them
 */
export function otherOrderThan(
  asFiled: Telling,
  stagger: Stagger,
  pace: Pace,
): OtherOrder | null | StudyFailure {
  const { plant, delay_s, duration_s } = asFiled;
  const first = stagger.motors.find((motor) => motor !== stagger.first);
  if (stagger.motors.length !== 2 || first === undefined || delay_s === 0) return null;
  const told = tellWhole(plant, otherWayRound(stagger, delay_s), delay_s, duration_s, pace);
  if (isFailure(told)) return told;
  const [here, there] = [asFiled, told].map((one) => score(one, plant.layout.circuit, stagger));
  const gains = there.lowest >= here.lowest + WORTH_percent;
  return {
    first,
    delay_s,
    lowestVoltage_percent: there.lowest,
    asFiled_percent: here.lowest,
    passes: there.passes,
    better: there.passes && (gains || !here.passes),
  };
}

function score(told: Telling, circuit: Circuit, stagger: Stagger): { lowest: number; passes: boolean } {
  const { report, findings } = judged(told, "staggered", stagger);
  return { lowest: lowestVoltage_percent(report, circuit), passes: passes(findings) };
}

/** What to add to the reason: nothing unless it is better. */
export function otherOrderSays(other: OtherOrder | null): string {
  if (other === null || !other.better) return "";
  const gain = `${percent(other.lowestVoltage_percent)} instead of ${percent(other.asFiled_percent)} at the lowest`;
  return ` Starting ${other.first} first does better: ${gain}.`;
}
