import { isWithin, isWithinIfStated, shown } from "../cable/check.ts";
import type { Issue } from "../issue.ts";
import { meterProblems } from "./meter.ts";
import type { ReadingsSupply } from "./spec.ts";

/** Smallest change of load worth reading a difference of, A. */
const LEAST_CHANGE_A = 0.5;

/** Everything wrong with the description of a measurement, before it is worked out. */
export function readingsProblems(spec: ReadingsSupply): Issue[] {
  const issues = meterProblems(spec.meter);
  checkReadings(issues, spec);
  checkLeg(issues, spec);
  isWithinIfStated(issues, "xOverR", spec.xOverR, {
    a: "a ratio X/R",
    unit: "",
    from: 0,
    to: 20,
    example: "0.5",
  });
  isWithinIfStated(issues, "loadPowerFactor", spec.loadPowerFactor, {
    a: "a power factor",
    unit: "",
    from: 0.1,
    to: 1,
    example: "1",
  });
  return issues;
}

function checkReadings(issues: Issue[], { readings }: ReadingsSupply): void {
  if (!Array.isArray(readings) || readings.length < 2 || readings.length > 1000) {
    const received = Array.isArray(readings) ? `${readings.length}` : "nothing";
    issues.push({ path: "readings", expected: "2 to 1000 readings, without and with load", received });
    return;
  }
  const volts = { a: "a voltage", unit: "V", from: 1, to: 1e5, example: '"239.4 V"' };
  const amperes = { a: "a current", unit: "A", from: 0, to: 1e4, example: '"12.5 A"' };
  const fine = readings.map((reading, k) => {
    const volt = isWithin(issues, `readings[${k}].voltage`, reading?.voltage_V, volts);
    return isWithin(issues, `readings[${k}].current`, reading?.current_A, amperes) && volt;
  });
  if (!fine.every((ok) => ok)) return;
  const currents = readings.map((reading) => reading.current_A);
  const change_A = Math.max(...currents) - Math.min(...currents);
  if (change_A >= LEAST_CHANGE_A) return;
  const expected = `readings with clearly different load, ${LEAST_CHANGE_A} A apart or more`;
  issues.push({ path: "readings", expected, received: `${shown(change_A, "A")} apart` });
}

function checkLeg(issues: Issue[], { at }: ReadingsSupply): void {
  if (at === undefined || at === "line") return;
  const winding = { a: "a winding voltage", unit: "V", from: 1, to: 1e5, example: '"120 V"' };
  const ohms = { a: "a leakage impedance", unit: "ohm", from: 0, to: 1e6, example: '"0.2 ohm"' };
  for (const k of [0, 1]) isWithin(issues, `at.windings[${k}]`, at.windings_V?.[k], winding);
  isWithin(issues, "at.leakage.r", at.leakage?.r_ohm, ohms);
  isWithin(issues, "at.leakage.x", at.leakage?.x_ohm, ohms);
  const ends = at.leakageRange ? [...at.leakageRange.r_ohm, ...at.leakageRange.x_ohm] : [];
  for (const end of ends) isWithin(issues, "at.leakageRange", end, ohms);
}
