import type { Circuit } from "@startgap/circuit";
import type { BelowTimes } from "./judge/times.ts";
import {
  COIL_percent,
  FUSE_MARGIN,
  type Limit,
  MOTOR_VOLTAGE_percent,
  RECEPTACLE_percent,
  RECEPTACLE_TIMES,
  RUN_UP_s,
} from "./limits.ts";
import type {
  CaseReport,
  ContactorResult,
  Finding,
  FuseResult,
  MotorResult,
  PointResult,
  Verdict,
} from "./results.ts";
import { amperes, percent, ratio, seconds, volts } from "./words.ts";

/** What judges of one case need besides its report. */
export interface CaseFacts {
  readonly report: CaseReport;
  readonly circuit: Circuit;
  /** By receptacle: total time below each step of the limit curve. */
  readonly below: ReadonlyMap<string, BelowTimes>;
}

/** Every judged question of one case. Reads results only. */
export function findingsOf(facts: CaseFacts): Finding[] {
  const { report } = facts;
  const motors = report.motors.filter(
    (motor) => motor.closed_s !== null || motor.outcome !== "off" || report.case !== "one",
  );
  return [
    ...motors.map((motor) => runUpFinding(motor, report)),
    ...motors.flatMap((motor) => motorVoltageFinding(motor, facts)),
    ...report.points.map((point) => sagFinding(point, facts)),
    ...report.contactors.flatMap((contactor) => contactorFinding(contactor, facts)),
    ...report.fuses.flatMap((fuse) => fuseFinding(fuse, facts)),
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
    outcome: up === null ? "fail" : below(up, RUN_UP_s),
    value: up,
    limit: RUN_UP_s.pass,
    unit: "s",
    basis: RUN_UP_s.basis,
    says: up === null ? neverUp(motor) : `${motor.part}: up to speed in ${seconds(up)}.`,
  };
}

function neverUp(motor: MotorResult): string {
  const drawn = amperes(motor.finalCurrent_A);
  if (motor.closed_s === null) return `${motor.part}: never switched on.`;
  if (motor.outcome === "tripped") return `${motor.part}: does not start, the fuse ahead of it opens.`;
  if (motor.outcome === "off") return `${motor.part}: cut off before it is up to speed, and stays off.`;
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
      outcome: above(value, MOTOR_VOLTAGE_percent),
      value,
      limit: MOTOR_VOLTAGE_percent.fail,
      unit: "%",
      basis: MOTOR_VOLTAGE_percent.basis,
      says: `${motor.part}: ${volts(motor.lowestVoltage_V)} at the lowest, ${percent(value)} of its ${volts(p.machine.voltage_V)}.`,
    },
  ];
}

function sagFinding(point: PointResult, facts: CaseFacts): Finding {
  const value = (100 * point.lowestVoltage_V) / point.nominal_V;
  const times = facts.below.get(point.part) ?? [];
  const outside = RECEPTACLE_TIMES.some((step, i) => (times[i] ?? 0) > step.longest_s);
  const lasts = point.below90_s > 0 ? `, below 90 % for ${seconds(point.below90_s)}` : "";
  return {
    finding: "receptacle sag",
    part: point.part,
    case: facts.report.case,
    outcome: outside ? "fail" : value >= RECEPTACLE_percent.pass ? "pass" : "caution",
    value,
    limit: RECEPTACLE_percent.pass,
    unit: "%",
    basis: RECEPTACLE_percent.basis,
    says: `${point.part}: ${volts(point.lowestVoltage_V)} at the lowest, ${percent(value)} of nominal${lasts}.`,
  };
}

function contactorFinding(contactor: ContactorResult, facts: CaseFacts): Finding[] {
  const p = facts.circuit.parts.find((part) => part.name === contactor.part);
  if (p?.is !== "contactor" || p.coil === null || contactor.lowestCoil_V === null) return [];
  const value = (100 * contactor.lowestCoil_V) / p.coil.rated_V;
  const coil = `its ${volts(p.coil.rated_V)} coil falls to ${volts(contactor.lowestCoil_V)}`;
  const dropped = contactor.dropOuts > 0;
  const times = contactor.dropOuts === 1 ? "once" : `${contactor.dropOuts} times`;
  return [
    {
      finding: "contactor holds",
      part: contactor.part,
      case: facts.report.case,
      outcome: dropped ? "fail" : value >= COIL_percent.pass ? "pass" : "caution",
      value,
      limit: COIL_percent.pass,
      unit: "%",
      basis: COIL_percent.basis,
      says: dropped
        ? `${contactor.part}: drops out ${times}, ${coil}.`
        : `${contactor.part}: stays in, ${coil}.`,
    },
  ];
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
      outcome: melted ? "fail" : margin === null ? "pass" : above(margin, FUSE_MARGIN),
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
