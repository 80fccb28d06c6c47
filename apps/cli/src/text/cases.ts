import type {
  CaseReport,
  CheckReport,
  ContactorResult,
  FuseResult,
  MotorResult,
  PointResult,
} from "@startgap/study";
import { count, percent, seconds, setting, volts } from "./numbers.ts";

/** A case as a column heading. */
export function caseName(c: Pick<CaseReport, "case" | "delay_s">): string {
  if (c.case === "one") return "first alone";
  return c.case === "together" ? "all at once" : `after ${setting(c.delay_s)}`;
}

const low = (value: number | null): string => (value === null ? "" : `, low ${volts(value)}`);

const endings: Readonly<Record<Exclude<MotorResult["outcome"], "off">, string>> = {
  running: "runs",
  stalled: "STALLS",
  tripped: "TRIPS",
};

function motorCell(motor: MotorResult): string {
  if (motor.closed_s === null) return "-";
  if (motor.outcome === "off") return `OFF at the end${low(motor.lowestVoltage_V)}`;
  const up = motor.outcome === "running" && motor.runUp_s !== null;
  const start = up ? `up in ${seconds(motor.runUp_s)}` : endings[motor.outcome];
  return `${start}${low(motor.lowestVoltage_V)}`;
}

/** A fuse without a margin has no curve, or carries nothing: there is nothing to say of its melting. */
function fuseCell(fuse: FuseResult): string {
  if (fuse.opened_s !== null) return `OPENS at ${seconds(fuse.opened_s)}`;
  return fuse.currentMargin === null ? "-" : `${percent(fuse.meltFraction)} to melting`;
}

const pointCell = (point: PointResult): string => `low ${volts(point.lowestVoltage_V)}`;

function contactorCell(contactor: ContactorResult): string {
  const held = contactor.dropOuts === 0 ? "holds" : `DROPS OUT ${count(contactor.dropOuts, "time")}`;
  return contactor.lowestCoil_V === null ? held : `${held}, coil ${volts(contactor.lowestCoil_V)}`;
}

/** Every judged part of a case with what became of it, in the order of the report. */
function cells(c: CaseReport): readonly (readonly [part: string, cell: string])[] {
  return [
    ...c.motors.map((m) => [m.part, motorCell(m)] as const),
    ...c.points.map((p) => [p.part, pointCell(p)] as const),
    ...c.fuses.map((f) => [f.part, fuseCell(f)] as const),
    ...c.contactors.map((k) => [k.part, contactorCell(k)] as const),
  ];
}

/** A row a part, a column a case; the first row is the head. */
export function caseRows(report: CheckReport): string[][] {
  const byCase = report.cases.map((c) => new Map(cells(c)));
  const parts = [...new Set(byCase.flatMap((m) => [...m.keys()]))];
  return [
    ["", ...report.cases.map(caseName)],
    ...parts.map((part) => [part, ...byCase.map((m) => m.get(part) ?? "-")]),
  ];
}
