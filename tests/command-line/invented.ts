import type { CaseName, CaseReport, CheckReport, DelayMap, Finding, Story, Verdict } from "@startgap/study";

/** Invented results: they test how results are told, not what they are. */

export const finding = (
  outcome: Verdict,
  named: string,
  part: string,
  of: CaseName = "staggered",
): Finding => ({
  finding: named,
  part,
  case: of,
  outcome,
  value: 2.18,
  limit: 1.25,
  unit: "",
  basis: "common practice",
  says: `${part}: ${named}, ${outcome} (${of}).`,
  gravity: "stops work",
  change: null,
});

export const caseReport = (of: CaseName, delay_s: number): CaseReport => ({
  case: of,
  delay_s,
  duration_s: 15,
  ended: "Reached 15 s.",
  motors: [
    {
      part: "pump 1",
      outcome: of === "together" ? "stalled" : "running",
      closed_s: 0,
      switchOpened_s: 0.4123,
      runUp_s: of === "together" ? null : 0.51789,
      peakCurrent_A: 96.13,
      lowestVoltage_V: 101.23,
      finalSpeed_rpm: 1741,
      finalCurrent_A: 15.2,
    },
    {
      part: "pump 2",
      outcome: of === "one" ? "off" : "running",
      closed_s: of === "one" ? null : delay_s,
      switchOpened_s: null,
      runUp_s: of === "one" ? null : 12.345,
      peakCurrent_A: 0,
      lowestVoltage_V: of === "one" ? null : 98.7,
      finalSpeed_rpm: 0,
      finalCurrent_A: 0,
    },
  ],
  fuses: [
    {
      part: "line fuses",
      meltFraction: 0.2134,
      currentMargin: 2.18,
      peakCurrent_A: 48,
      opened_s: of === "together" ? 9.12 : null,
    },
  ],
  points: [{ part: "lamps", nominal_V: 120, lowestVoltage_V: 103.82, below90_s: 0.44, finalVoltage_V: 117 }],
  contactors: [{ part: "contactor", dropOuts: of === "together" ? 14 : 0, lowestCoil_V: 20.93 }],
  worst: null,
});

export const report = (findings: readonly Finding[], staggered = true): CheckReport => ({
  startgap: "check 1",
  title: "Two pumps",
  cases: [
    caseReport("one", 0),
    caseReport("together", 0),
    ...(staggered ? [caseReport("staggered", 6)] : []),
  ],
  delay: { recommended_s: 1.5, shortest_s: 1.1, knee_s: 2, reason: "From 1.1 s on every delay passes." },
  findings,
});

export const story = (of: CaseName): Story => ({
  case: of,
  delay_s: 0,
  duration_s: 1,
  traces: {
    time_s: Float64Array.of(0, 0.5, 0.5, 1),
    columns: [
      {
        quantity: "voltage",
        part: 'lamps, "bar"',
        unit: "V",
        nominal: 120,
        values: Float64Array.of(120, 100.5, 119, Number.NaN),
      },
      ...(of === "one"
        ? []
        : [
            {
              quantity: "melt fraction",
              part: "line fuses",
              unit: "",
              nominal: null,
              values: Float64Array.of(0, 0.1, 0.1, 0.2),
            } as const,
          ]),
    ],
  },
  events: [],
});

/** 0 to 12 s by tenths; passes from `from` on but for one gap. */
export function map(passes: (delay_s: number) => boolean): DelayMap {
  const delay_s = Array.from({ length: 121 }, (_, k) => 0.1 * k);
  const each = <T>(value: T): T[] => delay_s.map(() => value);
  return {
    delay_s,
    motors: [
      { part: "pump 2", lowestVoltage_V: each(98.7), runUp_s: delay_s.map((d) => (d < 0.5 ? null : 0.6)) },
    ],
    points: [{ part: "lamps", nominal_V: 120, lowestVoltage_V: each(103.8) }],
    fuses: [{ part: "line fuses", meltFraction: each(0.21) }],
    contactors: [],
    chatters: delay_s.map(() => false),
    passes: delay_s.map(passes),
    advice: { recommended_s: 1.5, shortest_s: 1.1, knee_s: 2, reason: "From 1.1 s on every delay passes." },
  };
}
