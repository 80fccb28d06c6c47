import type { Circuit, Coil } from "@startgap/circuit";
import type { BelowTimes } from "./judge/times.ts";
import {
  CLOSINGS_a_second,
  COIL_percent,
  FUSE_MARGIN,
  type Limit,
  MOTOR_VOLTAGE_percent,
  RECEPTACLE_percent,
  RECEPTACLE_TIMES,
  RUN_UP_s,
} from "./limits.ts";
import { worth } from "./remedies.ts";
import type {
  CaseReport,
  ContactorResult,
  Finding,
  FuseResult,
  MotorResult,
  PointResult,
  Verdict,
} from "./results.ts";
import { sourceFindings } from "./sourceFindings.ts";
import { amperes, percent, ratio, seconds, volts } from "./words.ts";

/** What judges of one case need besides its report. */
export interface CaseFacts {
  readonly report: CaseReport;
  readonly circuit: Circuit;
  /** By receptacle: total time below each step of the limit curve. */
  readonly below: ReadonlyMap<string, BelowTimes>;
  /** What this story does not switch on by intention: nothing is asked of it. */
  readonly heldBack: ReadonlySet<string>;
}

/** Every judged question of one case. Reads results only. */
export function findingsOf(facts: CaseFacts): Finding[] {
  const { report, heldBack } = facts;
  const asked = ({ part }: { readonly part: string }): boolean => !heldBack.has(part);
  const motors = report.motors.filter(asked);
  return [
    ...motors.map((motor) => runUpFinding(motor, report)),
    ...motors.flatMap((motor) => motorVoltageFinding(motor, facts)),
    ...report.points.filter(asked).map((point) => sagFinding(point, facts)),
    ...report.contactors.filter(asked).flatMap((contactor) => contactorFinding(contactor, facts)),
    ...report.contactors.filter(asked).flatMap((contactor) => weldFinding(contactor, report.case)),
    ...report.fuses.flatMap((fuse) => fuseFinding(fuse, facts)),
    ...sourceFindings(report, facts.circuit),
  ];
}

const above = (value: number, limit: Limit): Verdict =>
  value >= limit.pass ? "pass" : value >= limit.fail ? "caution" : "fail";
const below = (value: number, limit: Limit): Verdict =>
  value <= limit.pass ? "pass" : value <= limit.fail ? "caution" : "fail";

function runUpFinding(motor: MotorResult, report: CaseReport): Finding {
  const up = motor.runUp_s;
  return {
    finding: "run-up",
    part: motor.part,
    case: report.case,
    ...worth(
      motor.outcome === "stalled" ? "stands still" : "run-up",
      up === null ? "fail" : below(up, RUN_UP_s),
    ),
    value: up,
    limit: RUN_UP_s.pass,
    unit: "s",
    basis: RUN_UP_s.basis,
    says: up === null ? neverUp(motor, report) : `${motor.part}: up to speed in ${seconds(up)}.`,
  };
}

/** Drop-outs from which a contactor chatters: what is off in the end is off for the moment. */
const CHATTER = 3;

/** Why there is no run-up time. */
function neverUp(motor: MotorResult, { contactors }: CaseReport): string {
  const drawn = amperes(motor.finalCurrent_A);
  if (motor.closed_s === null) return `${motor.part}: not switched on in the time shown.`;
  if (motor.outcome === "tripped") return `${motor.part}: does not start, the fuse ahead of it opens.`;
  if (motor.outcome === "off") {
    const chatters = contactors.some(({ dropOuts }) => dropOuts >= CHATTER);
    return chatters
      ? `${motor.part}: cut off again and again before it is up to speed.`
      : `${motor.part}: cut off before it is up to speed, and stays off.`;
  }
  if (motor.outcome === "running") return `${motor.part}: runs but does not settle in the time shown.`;
  return `${motor.part}: does not come up to speed, it hums at ${Math.round(motor.finalSpeed_rpm)} rpm and draws ${drawn}.`;
}

function motorVoltageFinding(motor: MotorResult, facts: CaseFacts): Finding[] {
  const p = facts.circuit.parts.find((part) => part.name === motor.part);
  if (p?.is !== "motor" || motor.lowestVoltage_V === null) return [];
  const value = (100 * motor.lowestVoltage_V) / p.machine.voltage_V;
  return [
    {
      finding: "lowest motor voltage",
      part: motor.part,
      case: facts.report.case,
      ...worth("lowest motor voltage", above(value, MOTOR_VOLTAGE_percent)),
      value,
      limit: MOTOR_VOLTAGE_percent.pass,
      unit: "%",
      basis: MOTOR_VOLTAGE_percent.basis,
      says: `${motor.part}: ${volts(motor.lowestVoltage_V)} at the lowest, ${percent(value)} of its ${volts(p.machine.voltage_V)}.`,
    },
  ];
}

/** The limit curve allows 90 % for good, and less for its own times only. */
function sagFinding(point: PointResult, facts: CaseFacts): Finding {
  const value = (100 * point.lowestVoltage_V) / point.nominal_V;
  const times = facts.below.get(point.part) ?? [];
  const stays = 100 * point.finalVoltage_V < RECEPTACLE_percent.pass * point.nominal_V;
  const outside = stays || RECEPTACLE_TIMES.some((step, i) => (times[i] ?? 0) > step.longest_s);
  const lasts = point.below90_s > 0 ? `, below 90 % for ${seconds(point.below90_s)}` : "";
  const end = stays ? `, and ${volts(point.finalVoltage_V)} at the end` : "";
  return {
    finding: "receptacle sag",
    part: point.part,
    case: facts.report.case,
    ...worth("receptacle sag", outside ? "fail" : value >= RECEPTACLE_percent.pass ? "pass" : "caution"),
    value,
    limit: RECEPTACLE_percent.pass,
    unit: "%",
    basis: RECEPTACLE_percent.basis,
    says: `${point.part}: ${volts(point.lowestVoltage_V)} at the lowest, ${percent(value)} of nominal${lasts}${end}.`,
  };
}

function contactorFinding(contactor: ContactorResult, facts: CaseFacts): Finding[] {
  const p = facts.circuit.parts.find((part) => part.name === contactor.part);
  if (p?.is !== "contactor" || p.coil === null) return [];
  const lowest = contactor.lowestCoil_V;
  const value = lowest === null ? null : (100 * lowest) / p.coil.rated_V;
  const holds = contactor.dropOuts === 0 && !isTooWeak(contactor, p.coil);
  return [
    {
      finding: "contactor holds",
      part: contactor.part,
      case: facts.report.case,
      ...worth(
        "contactor holds",
        !holds ? "fail" : value === null || value >= COIL_percent.pass ? "pass" : "caution",
      ),
      value,
      limit: COIL_percent.pass,
      unit: "%",
      basis: COIL_percent.basis,
      says: `${contactor.part}: ${contactorSays(contactor, p.coil)}.`,
    },
  ];
}

/** Asked only of contacts that have closed more than once. */
function weldFinding({ part, closesAgain }: ContactorResult, of: CaseReport["case"]): Finding[] {
  if (closesAgain === undefined) return [];
  const { times, inOneSecond, most_A } = closesAgain;
  const { pass, fail, basis } = CLOSINGS_a_second;
  const often = times === 1 ? "once more" : `${times} times more`;
  return [
    {
      finding: "contacts weld",
      part,
      case: of,
      ...worth("contacts weld", inOneSecond <= pass ? "pass" : inOneSecond < fail ? "caution" : "fail"),
      value: inOneSecond,
      limit: pass,
      unit: "",
      basis,
      says: `${part}: closes ${often} on up to ${amperes(most_A)}, ${inOneSecond} times within a second at the worst.`,
    },
  ];
}

/** It never pulls in for want of volts; one that nothing calls for has enough of them. */
const isTooWeak = ({ closed_s, lowestCoil_V }: ContactorResult, coil: Coil): boolean =>
  closed_s === null && (lowestCoil_V === null || lowestCoil_V < coil.pullIn_V);

function contactorSays(contactor: ContactorResult, coil: Coil): string {
  const { dropOuts, closed_s, lowestCoil_V } = contactor;
  if (lowestCoil_V === null) return `never pulls in, its ${volts(coil.rated_V)} coil gets no voltage`;
  const lowest = `its ${volts(coil.rated_V)} coil falls to ${volts(lowestCoil_V)}`;
  if (isTooWeak(contactor, coil)) return `never pulls in, ${lowest} and needs ${volts(coil.pullIn_V)}`;
  if (dropOuts === 0) return `${closed_s === null ? "is not called" : "stays in"}, ${lowest}`;
  return `drops out ${dropOuts === 1 ? "once" : `${dropOuts} times`}, ${lowest}`;
}

function fuseFinding(fuse: FuseResult, facts: CaseFacts): Finding[] {
  const p = facts.circuit.parts.find((part) => part.name === fuse.part);
  if (p?.is !== "fuse" || p.melt === null) return [];
  const margin = fuse.currentMargin;
  const melted = fuse.opened_s !== null;
  return [
    {
      finding: "fuse holds",
      part: fuse.part,
      case: facts.report.case,
      ...worth("fuse holds", melted ? "fail" : margin === null ? "pass" : above(margin, FUSE_MARGIN)),
      value: margin,
      limit: FUSE_MARGIN.pass,
      unit: "",
      basis: FUSE_MARGIN.basis,
      says: melted
        ? `${fuse.part}: melted at ${seconds(fuse.opened_s ?? 0)}.`
        : margin === null
          ? `${fuse.part}: no current.`
          : `${fuse.part}: no melting, the current could be ${ratio(margin)} times as large before that.`,
    },
  ];
}
