import { isWithin, isWithinIfStated, shown, shownRange } from "../cable/check.ts";
import type { Assumption, Derived } from "../grade.ts";
import type { Issue } from "../issue.ts";
import { assumed } from "./notes.ts";
import type { InverterSupply, SupplyFound } from "./spec.ts";

/** Battery inverters: common practice, no source (from memory). */
const defaults = {
  surgeFactor: { nominal: 2, low: 1.3, high: 3 },
  surge_s: { nominal: 5, low: 1, high: 10 },
  stops_s: { nominal: 1, low: 0.1, high: 5 },
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
  isWithinIfStated(issues, "stops", spec.stops_s, {
    a: "a time before it shuts down",
    unit: "s",
    from: 0,
    to: 60,
    example: '"1 s"',
  });
  return issues;
}

/**
 * An inverter with its current limit, and beside it the resistance V/I_limit, whose short circuit draws just that limit,
 * for whoever needs an impedance.
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
        continuous_A,
        limit_A: factor * continuous_A,
        surge_s: spec.surge_s ?? defaults.surge_s.nominal,
        stops_s: spec.stops_s ?? defaults.stops_s.nominal,
      },
    },
    assumptions: notes(spec, part),
  };
}

function notes(spec: InverterSupply, part: string): Assumption[] {
  const { surgeFactor, surge_s, stops_s } = defaults;
  const found: Assumption[] = [];
  const add = (what: string, unit: string, span: { nominal: number; low: number; high: number }) =>
    found.push(assumed(part, what, shown(span.nominal, unit), shownRange(span.low, span.high, unit)));
  if (spec.surgeFactor === undefined) add("surge limit over continuous current", "", surgeFactor);
  if (spec.surge_s === undefined) add("surge time", "s", surge_s);
  if (spec.stops_s === undefined) add("time at the continuous current before it shuts down", "s", stops_s);
  return found;
}
