import { amperes, percent, volts } from "../words.ts";
import type { ProtectionFinding } from "./results.ts";
import { partsOf, type Scene } from "./scene.ts";
import type { Situation } from "./situations.ts";

/**
 * Advice for one cable and for the whole way, percent of nominal. Source: NEC 210.19 and 215.2, informational notes; IEC
 * 60364-5-52 annex G has 5 % for the whole way but for lighting (from memory).
 */
const RUNNING_percent = { cable: 3, whole: 5 } as const;
/** Common practice, no source. */
const STARTING_percent = { cable: 10, whole: 20 } as const;

const basisOf = ({ rules }: Scene, what: string): string =>
  rules === "NEC"
    ? `NEC 210.19 and 215.2, informational notes: ${what}`
    : `IEC 60364-5-52 annex G, 5 % in all (from memory), and common practice: ${what}`;

/** Drop in magnitude across a cable, percent of the nominal voltage there. */
export const drop_percent = (s: Situation, part: string, nominal_V: number): number =>
  (100 * (s.input_V(part) - s.voltage_V(part))) / nominal_V;

/** Running and starting drop of every cable, and what is left at every motor that starts among the others. */
export const dropFindings = (scene: Scene): ProtectionFinding[] => [
  ...partsOf(scene, "cable").flatMap(({ name }) => cableFindings(scene, name)),
  ...partsOf(scene, "motor").map(({ name }) => motorFinding(scene, name)),
];

function cableFindings(scene: Scene, part: string): ProtectionFinding[] {
  const nominal_V = scene.nominal_V(part);
  const { running, standing } = scene.situations;
  const starts = [...standing].map(([motor, s]) => ({ motor, drop: drop_percent(s, part, nominal_V) }));
  const worst = starts.reduce<{ motor: string; drop: number } | null>(
    (a, b) => (a === null || b.drop > a.drop ? b : a),
    null,
  );
  const steady = drop_percent(running, part, nominal_V);
  return [
    {
      finding: "running voltage drop",
      part,
      outcome: steady <= RUNNING_percent.cable ? "pass" : "caution",
      gravity: "note",
      value: steady,
      limit: RUNNING_percent.cable,
      unit: "%",
      basis: basisOf(scene, "3 % a cable, 5 % in all"),
      says: `${part}: loses ${percent(steady)} of ${volts(nominal_V)} with everything running, at ${amperes(running.current_A(part))}.`,
      change:
        steady <= RUNNING_percent.cable
          ? null
          : "Use a thicker or shorter cable, or feed at a higher voltage.",
    },
    ...(worst === null ? [] : [startFinding(part, nominal_V, worst.motor, worst.drop)]),
  ];
}

function startFinding(part: string, nominal_V: number, motor: string, drop: number): ProtectionFinding {
  const fits = drop <= STARTING_percent.cable;
  return {
    finding: "starting voltage drop",
    part,
    outcome: fits ? "pass" : drop <= STARTING_percent.whole ? "caution" : "fail",
    gravity: "stops work",
    value: drop,
    limit: STARTING_percent.cable,
    unit: "%",
    basis: "common practice, no source: up to 10 % in one cable while a motor starts",
    says: `${part}: loses ${percent(drop)} of ${volts(nominal_V)} while ${motor} starts among the others.`,
    change: fits ? null : "Use a thicker or shorter cable, or a smaller motor first.",
  };
}

function motorFinding(scene: Scene, part: string): ProtectionFinding {
  const nominal_V = scene.nominal_V(part);
  const left = scene.situations.running.voltage_V(part);
  const lost = 100 * (1 - left / nominal_V);
  const fits = lost <= RUNNING_percent.whole;
  return {
    finding: "voltage drop in all",
    part,
    outcome: fits ? "pass" : "caution",
    gravity: "note",
    value: lost,
    limit: RUNNING_percent.whole,
    unit: "%",
    basis: basisOf(scene, "5 % from the supply to the last outlet"),
    says: `${part}: ${volts(left)} of ${volts(nominal_V)} is left with everything running, ${percent(lost)} lost.`,
    change: fits ? null : "Look at where the volts go, and mend the largest share first.",
  };
}
