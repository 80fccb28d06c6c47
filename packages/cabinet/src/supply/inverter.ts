import { isWithin, isWithinIfStated, shown } from "../cable/check.ts";
import type { Assumption, Derived } from "../grade.ts";
import type { Issue } from "../issue.ts";
import { assumed } from "./notes.ts";
import type { InverterSupply, SupplyFound } from "./spec.ts";

/** Battery inverters: common practice, no source (from memory). */
const defaults = {
  surgeFactor: { nominal: 2, low: 1.3, high: 3 },
  surge_s: { nominal: 5, low: 1, high: 10 },
} as const;

export function inverterProblems(spec: InverterSupply): Issue[] {
  const issues: Issue[] = [];
  isWithin(issues, "continuous", spec.continuous_VA, {
    a: "a continuous rating",
    unit: "VA",
    from: 0,
    above: true,
    to: 1e8,
    example: '"4 kVA"',
  });
  isWithinIfStated(issues, "surgeFactor", spec.surgeFactor, {
    a: "a surge factor",
    unit: "",
    from: 1,
    to: 10,
    example: "2",
  });
  isWithinIfStated(issues, "surge", spec.surge_s, {
    a: "a surge time",
    unit: "s",
    from: 0,
    above: true,
    to: 600,
    example: '"5 s"',
  });
  return issues;
}

/**
 * An inverter as its parameters, and as a first estimate a fixed resistance V/I_limit: a short circuit then draws
 * just the surge limit.
 *
 * Limitation: an inverter holds its voltage up to the limit, so the estimate shows too deep a sag below it, and it
 * does not stop after the surge time.
 */
export function fromInverter(spec: InverterSupply, part: string): Derived<SupplyFound> {
  const { voltage_V, frequency_Hz, continuous_VA } = spec;
  const continuous_A = continuous_VA / voltage_V;
  const ohm = (factor: number) => voltage_V / (factor * continuous_A);
  const factor = spec.surgeFactor ?? defaults.surgeFactor.nominal;
  const { low, high } = spec.surgeFactor === undefined ? defaults.surgeFactor : { low: factor, high: factor };
  return {
    value: {
      voltage_V,
      frequency_Hz,
      r_ohm: ohm(factor),
      x_ohm: 0,
      range: { r_ohm: [ohm(high), ohm(low)], x_ohm: [0, 0] },
      source: {
        is: "inverter",
        voltage_V,
        frequency_Hz,
        continuous_A,
        limit_A: factor * continuous_A,
        surge_s: spec.surge_s ?? defaults.surge_s.nominal,
      },
    },
    assumptions: notes(spec, part, ohm(factor)),
  };
}

function notes(spec: InverterSupply, part: string, r_ohm: number): Assumption[] {
  const fixed = `fixed ${shown(r_ohm, "ohm")}: first estimate, too deep a sag below the current limit`;
  const found = [assumed(part, "inverter as a fixed impedance", fixed, null)];
  const { surgeFactor, surge_s } = defaults;
  if (spec.surgeFactor === undefined) {
    const range = `${surgeFactor.low} to ${surgeFactor.high}`;
    found.push(assumed(part, "surge limit over continuous current", `${surgeFactor.nominal}`, range));
  }
  if (spec.surge_s === undefined) {
    found.push(assumed(part, "surge time", `${surge_s.nominal} s`, `${surge_s.low} to ${surge_s.high} s`));
  }
  return found;
}
