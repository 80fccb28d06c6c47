import { CAPACITOR_s } from "../heat/starts.ts";
import type { ProtectionFinding } from "../protection/results.ts";
import { clock, degrees, percent, ratio, seconds } from "../words.ts";
import { upTo } from "./findings.ts";
import type { MotorBody } from "./motorBody.ts";
import type { DayMotor } from "./results.ts";

type StartWinding = NonNullable<DayMotor["startWinding"]>;

/** Every question of one motor's day. */
export function motorFindings(m: DayMotor, body: MotorBody): ProtectionFinding[] {
  const winding = m.startWinding;
  return [
    ...(m.failed > 0 ? [failedFinding(m)] : []),
    windingFinding(m),
    ...(m.starts === 0 ? [] : startsFindings(m)),
    ...(winding === null || m.starts === 0
      ? []
      : [secondsFinding(m, winding), startWindingFinding(m, winding, body)]),
    ...(winding?.hasCapacitor && m.starts > 0 ? [capacitorFinding(m, winding)] : []),
  ];
}

function failedFinding(m: DayMotor): ProtectionFinding {
  return {
    finding: "every start comes up",
    part: m.part,
    outcome: "fail",
    gravity: "danger",
    value: m.failed,
    limit: 0,
    unit: "",
    basis: "a motor that does not come up burns its start winding",
    says: `${m.part}: ${m.failed} of its ${m.starts} starts did not come up or were cut off.`,
    change: "Look at `startgap check` for why, and mend that first.",
  };
}

/** A winding this much above its rated temperature ages fast, K. */
const OVER_K = 10;

function windingFinding(m: DayMotor): ProtectionFinding {
  const outcome = upTo(m.hottest.value, m.limit_C, m.limit_C + OVER_K);
  return {
    finding: "motor winding over the day",
    part: m.part,
    outcome,
    gravity: "danger",
    value: m.hottest.value,
    limit: m.limit_C,
    unit: "degC",
    basis: "NEMA MG 1 12.42: rated rise in air of 40 degC, in proportion to the losses",
    says: `${m.part}: its winding comes to ${degrees(m.hottest.value)} at ${clock(m.hottest.at_s)}, and is made for ${degrees(m.limit_C)}.`,
    change: outcome === "pass" ? null : "Lower its load, raise its voltage, or let it rest more.",
  };
}

/** Starts go with one over volume and band: what a receiver, or its band, must grow by to bring them to a number. */
function fewer({ fills }: DayMotor, times: number): string {
  if (fills === null) return "Let it start less often.";
  return `A receiver ${ratio(Math.max(1.1, times))} times as large as ${fills}, or a band as much wider, brings that down to half of the table.`;
}

/** The published table is of polyphase motors: half of it passes, all of it is a caution, more fails. */
const TABLE = "NEMA MG 10 table 2-3, of polyphase motors: an upper bound for single-phase ones";

function startsFindings(m: DayMotor): ProtectionFinding[] {
  if (m.allowed === null) return [];
  const { value, at_s } = m.mostInAnHour;
  const { perHour, rest_s } = m.allowed;
  const outcome = upTo(value, perHour / 2, perHour);
  const starts: ProtectionFinding = {
    finding: "starts an hour over the day",
    part: m.part,
    outcome,
    gravity: "stops work",
    value,
    limit: perHour,
    unit: "1/h",
    basis: `${TABLE}; pass up to half of it`,
    says: `${m.part}: starts ${value} times in the hour from ${clock(at_s)}, ${m.starts} in all; the table ends at ${Math.floor(perHour)} an hour.`,
    change: outcome === "pass" ? null : fewer(m, value / (perHour / 2)),
  };
  if (m.shortestRest_s === null) return [starts];
  const rests = m.shortestRest_s >= rest_s;
  return [
    starts,
    {
      finding: "rest between starts",
      part: m.part,
      outcome: rests ? "pass" : "caution",
      gravity: "stops work",
      value: m.shortestRest_s,
      limit: rest_s,
      unit: "s",
      basis: TABLE,
      says: `${m.part}: its shortest rest is ${seconds(m.shortestRest_s)}; the table asks for ${seconds(rest_s)}.`,
      change: rests ? null : `Add a timer that keeps it off for ${seconds(rest_s)} once it has stopped.`,
    },
  ];
}

/** Start winding out within a second; smoke after three: common practice, no source. */
const LONG_s = { pass: 1, fail: 3 } as const;

function secondsFinding(m: DayMotor, { longest_s }: StartWinding): ProtectionFinding {
  const outcome = upTo(longest_s, LONG_s.pass, LONG_s.fail);
  return {
    finding: "start winding seconds over the day",
    part: m.part,
    outcome,
    gravity: "danger",
    value: longest_s,
    limit: LONG_s.pass,
    unit: "s",
    basis: "common practice, no source: below a second is sound, above three the winding is in danger",
    says: `${m.part}: its start winding is in circuit for ${seconds(longest_s)} in the longest start of the day.`,
    change:
      outcome === "pass"
        ? null
        : "Shorten the start: unload it, raise the voltage, or see to the start capacitor.",
  };
}

function startWindingFinding(m: DayMotor, w: StartWinding, body: MotorBody): ProtectionFinding {
  const { lasting, most } = body.startWindingLimit_C ?? { lasting: 0, most: 0 };
  const outcome = upTo(w.hottest_C, lasting, most);
  return {
    finding: "start winding heat over the day",
    part: m.part,
    outcome,
    gravity: "danger",
    value: w.hottest_C,
    limit: lasting,
    unit: "degC",
    basis: `IEC 60085, its class; ${degrees(most)} at most, UL 1004 (from memory); adiabatic with a usual density`,
    says:
      outcome === "fail"
        ? `${m.part}: its start winding burns at ${clock(w.at_s)}, beyond ${degrees(most)}.`
        : `${m.part}: its start winding comes to about ${degrees(w.hottest_C)} at ${clock(w.at_s)}.`,
    change: outcome === "pass" ? null : "Shorten the start, or let it start less often.",
  };
}

function capacitorFinding(m: DayMotor, { inAnHour }: StartWinding): ProtectionFinding {
  const outcome = upTo(inAnHour.value, CAPACITOR_s / 2, CAPACITOR_s);
  return {
    finding: "start capacitor over the day",
    part: m.part,
    outcome,
    gravity: "stops work",
    value: inAnHour.value,
    limit: CAPACITOR_s,
    unit: "s",
    basis:
      "common practice, no source: 60 s an hour in circuit (60 starts of 1 s, 20 of 3 s); pass up to half of it",
    says: `${m.part}: its start capacitor is in circuit for ${seconds(inAnHour.value)} in the hour from ${clock(inAnHour.at_s)}, ${percent((100 * inAnHour.value) / CAPACITOR_s)} of what it bears.`,
    change: outcome === "pass" ? null : "Shorten the start or let it start less often.",
  };
}
