import { isWithin, isWithinIfStated } from "../cable/check.ts";
import { ofMagnitude, rangeOfMagnitude } from "../cable/impedance.ts";
import type { Assumption, Derived } from "../grade.ts";
import type { Issue } from "../issue.ts";
import { assumed } from "./notes.ts";
import type { FaultCurrentSupply, SupplyFound } from "./spec.ts";

export const DEFAULT_RATIO = { nominal: 1, low: 0.3, high: 2 } as const;

export const ratioLimit = { a: "a ratio X/R", unit: "", from: 0, to: 100, example: "0.9" } as const;

/** The ratio was not stated: what is taken, and how far off it may be. */
export const ratioNote = (part: string): Assumption =>
  assumed(part, "ratio X/R", `${DEFAULT_RATIO.nominal}`, `${DEFAULT_RATIO.low} to ${DEFAULT_RATIO.high}`);

export function faultCurrentProblems(spec: FaultCurrentSupply): Issue[] {
  const issues: Issue[] = [];
  isWithin(issues, "faultCurrent", spec.faultCurrent_A, {
    a: "a fault current",
    unit: "A",
    from: 0,
    above: true,
    to: 1e6,
    example: '"1.8 kA"',
  });
  isWithinIfStated(issues, "xOverR", spec.xOverR, ratioLimit);
  return issues;
}

/** Z = V/I, the open-circuit voltage over the current of a bolted fault; checked by tests/published/supply-ieee-141. */
export function fromFaultCurrent(spec: FaultCurrentSupply, part: string): Derived<SupplyFound> {
  const { voltage_V, frequency_Hz, faultCurrent_A, xOverR } = spec;
  const z_ohm = voltage_V / faultCurrent_A;
  const value = { voltage_V, frequency_Hz, ...ofMagnitude(z_ohm, xOverR ?? DEFAULT_RATIO.nominal) };
  if (xOverR !== undefined) return { value, assumptions: [] };
  const range = rangeOfMagnitude([z_ohm, z_ohm], [DEFAULT_RATIO.low, DEFAULT_RATIO.high]);
  return { value: { ...value, range }, assumptions: [ratioNote(part)] };
}
