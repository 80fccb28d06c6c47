import type { CaseName, CaseReport, Check, Story } from "@startgap/study";
import { lightCurve } from "./light.ts";

/** A case as it is felt at one point: a receptacle, a lamp, or the terminals of a motor. */
export interface Felt {
  readonly report: CaseReport;
  readonly nominal_V: number;
  readonly lowest_V: number;
  readonly below90_s: number;
  /** Light of a filament lamp there over the story, as a fraction of its normal light. */
  readonly light: Float32Array;
  /** Its least. */
  readonly dimmest: number;
}

/** Where a client may look: at receptacles and lamps, and where there are none at what feeds the motors. */
export function pointsOf(check: Check): string[] {
  const loads = check.report.cases[0]?.points.map((point) => point.part) ?? [];
  if (loads.length > 0) return loads;
  const motors = new Set(check.report.cases.flatMap((report) => report.motors.map((motor) => motor.part)));
  const steady = check.stories[0]?.traces.columns.filter(
    (column) => column.quantity === "voltage" && column.nominal !== null && !motors.has(column.part),
  );
  return (steady ?? []).slice(-1).map((column) => column.part);
}

/** A case at a point; null when it was not told there. */
export function feltAt(check: Check, name: CaseName, point: string, end_s: number): Felt | null {
  const report = check.report.cases.find((one) => one.case === name);
  const story = check.stories.find((one) => one.case === name);
  const column = story?.traces.columns.find((one) => one.quantity === "voltage" && one.part === point);
  if (report === undefined || story === undefined || column === undefined || column.nominal === null)
    return null;
  const { values, nominal } = column;
  const light = lightCurve(story.traces.time_s, values, nominal, end_s);
  return {
    report,
    nominal_V: nominal,
    lowest_V: values.reduce((a, b) => Math.min(a, b), nominal),
    below90_s: timeBelow_s(story, values, 0.9 * nominal),
    light,
    dimmest: light.reduce((a, b) => Math.min(a, b), 1),
  };
}

/** Total time below a voltage; between samples the curve is straight. */
function timeBelow_s({ traces: { time_s } }: Story, values: Float64Array, limit_V: number): number {
  let sum = 0;
  for (let i = 1; i < values.length; i++) {
    const [a, b] = [limit_V - values[i - 1], limit_V - values[i]];
    const dt = time_s[i] - time_s[i - 1];
    if (a >= 0 && b >= 0) sum += dt;
    else if (a > 0 || b > 0) sum += (dt * Math.max(a, b)) / Math.abs(b - a);
  }
  return sum;
}
