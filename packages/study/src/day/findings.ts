import { AIR_LIMIT_C, boxHeat } from "../heat/boxHeat.ts";
import { coolingWords } from "../heat/findings.ts";
import type { ProtectionFinding } from "../protection/results.ts";
import type { Verdict } from "../results.ts";
import { clock, degrees } from "../words.ts";
import type { Told } from "./course.ts";
import { fuseFinding, receiverFindings } from "./findingsOfParts.ts";
import { motorFindings } from "./motorFindings.ts";
import type { DayBox, DayFuse, DayMotor, DayReceiver, DayTransformer } from "./results.ts";

export interface DayFigures {
  readonly motors: readonly DayMotor[];
  readonly transformers: readonly DayTransformer[];
  readonly fuses: readonly DayFuse[];
  readonly receivers: readonly DayReceiver[];
  readonly box: DayBox | null;
}

export const upTo = (value: number, pass: number, fail: number): Verdict =>
  value <= pass ? "pass" : value <= fail ? "caution" : "fail";

/** Every judged question of a day. */
export const dayFindings = (d: DayFigures, told: Told): ProtectionFinding[] => [
  ...(told.outcome.ending === "endless chatter" ? [chatters(told)] : []),
  ...d.motors.flatMap((motor, k) => motorFindings(motor, told.bodies.motors[k])),
  ...d.transformers.map(transformerFinding),
  ...(d.box === null ? [] : [boxFinding(d.box, told)]),
  ...d.fuses.flatMap(fuseFinding),
  ...d.receivers.flatMap(receiverFindings),
];

function chatters({ end_s }: Told): ProtectionFinding {
  return {
    finding: "day comes to its end",
    part: "contactor",
    outcome: "fail",
    gravity: "danger",
    value: end_s / 3600,
    limit: null,
    unit: "h",
    basis: "common practice, no source: contacts that chatter weld in seconds",
    says: `The day ends at ${clock(end_s)}: a contactor chatters without end.`,
    change: "Look at `startgap check` for what lets the voltage fall, and mend that first.",
  };
}

/** A hottest spot this near to its system's limit is told, K. */
const NEAR_K = 10;

function transformerFinding({ part, winding, insulation_C }: DayTransformer): ProtectionFinding {
  const outcome = upTo(winding.value, insulation_C - NEAR_K, insulation_C);
  return {
    finding: "transformer heat over the day",
    part,
    outcome,
    gravity: "danger",
    value: winding.value,
    limit: insulation_C,
    unit: "degC",
    basis: "rises of NEMA ST 20 and UL 506 with load^1.6, IEEE C57.96 (exponent from memory)",
    says: `${part}: comes to ${degrees(winding.value)} at its hottest spot at ${clock(winding.at_s)}; its insulation bears ${degrees(insulation_C)}.`,
    change:
      outcome === "pass" ? null : "Fit a larger transformer, share the legs more evenly, or cool the box.",
  };
}

function boxFinding({ hottest }: DayBox, { scene, bodies: { box: enclosure } }: Told): ProtectionFinding {
  const outcome = upTo(hottest.value, AIR_LIMIT_C.pass, AIR_LIMIT_C.fail);
  return {
    finding: "air in the box over the day",
    part: "enclosure",
    outcome,
    gravity: "stops work",
    value: hottest.value,
    limit: AIR_LIMIT_C.pass,
    unit: "degC",
    basis:
      "IEC 60947-1 6.1.1: 40 degC around devices; relays and contactors bear 55 degC, common practice, no source",
    says: `enclosure: its air comes to ${degrees(hottest.value)} at ${clock(hottest.at_s)}.`,
    change: outcome === "pass" || enclosure === null ? null : coolingWords(boxHeat(scene, enclosure)),
  };
}
