import { isWithin, isWithinIfStated, shown } from "../cable/check.ts";
import type { Assumption, Derived } from "../grade.ts";
import type { Issue } from "../issue.ts";
import { assumed } from "./notes.ts";
import type { GeneratorSupply, SupplyFound } from "./spec.ts";

/** Portable sets. Reactance and resistance: common practice, no source (from memory); recovery: common practice. */
const defaults = {
  transientReactance_pu: { nominal: 0.25, low: 0.15, high: 0.4 },
  resistance_pu: { nominal: 0.03, low: 0.01, high: 0.05 },
  regulatorRecovery_s: { nominal: 2.5, low: 2, high: 3 },
} as const;

export function generatorProblems(spec: GeneratorSupply): Issue[] {
  const issues: Issue[] = [];
  isWithin(issues, "rating", spec.rating_VA, {
    a: "a generator rating",
    unit: "VA",
    from: 0,
    above: true,
    to: 1e8,
    example: '"7 kVA"',
  });
  isWithinIfStated(issues, "transientReactance", spec.transientReactance_pu, {
    a: "a transient reactance per unit",
    unit: "",
    from: 0.01,
    to: 1,
    example: "0.25",
  });
  const most = spec.transientReactance_pu ?? defaults.transientReactance_pu.nominal;
  isWithinIfStated(issues, "subtransientReactance", spec.subtransientReactance_pu, {
    a: "a subtransient reactance per unit, not above the transient one,",
    unit: "",
    from: 0.01,
    to: most,
    example: "0.15",
  });
  isWithinIfStated(issues, "regulatorRecovery", spec.regulatorRecovery_s, {
    a: "a recovery time",
    unit: "s",
    from: 0,
    to: 60,
    example: '"2.5 s"',
  });
  return issues;
}

/**
 * A generator as its parameters, and as a first estimate a fixed impedance: resistance and transient reactance.
 *
 * Per unit of V^2/S. Limitation: the estimate holds for some tenths of a second after a load step, before the
 * regulator brings the voltage back; it leaves out the deeper first cycles, the recovery and the engine's speed.
 */
export function fromGenerator(spec: GeneratorSupply, part: string): Derived<SupplyFound> {
  const { voltage_V, frequency_Hz, rating_VA } = spec;
  const base_ohm = voltage_V ** 2 / rating_VA;
  const transient = spec.transientReactance_pu ?? defaults.transientReactance_pu.nominal;
  const r_ohm = defaults.resistance_pu.nominal * base_ohm;
  const x_ohm = transient * base_ohm;
  const subtransient = spec.subtransientReactance_pu;
  const span =
    spec.transientReactance_pu === undefined
      ? defaults.transientReactance_pu
      : { low: transient, high: transient };
  return {
    value: {
      voltage_V,
      frequency_Hz,
      r_ohm,
      x_ohm,
      range: {
        r_ohm: [defaults.resistance_pu.low * base_ohm, defaults.resistance_pu.high * base_ohm],
        x_ohm: [span.low * base_ohm, span.high * base_ohm],
      },
      source: {
        is: "generator",
        rating_VA,
        voltage_V,
        frequency_Hz,
        resistance_ohm: r_ohm,
        transientReactance_ohm: x_ohm,
        subtransientReactance_ohm: subtransient === undefined ? null : subtransient * base_ohm,
        regulatorRecovery_s: spec.regulatorRecovery_s ?? defaults.regulatorRecovery_s.nominal,
      },
    },
    assumptions: notes(spec, part, r_ohm, x_ohm),
  };
}

function notes(spec: GeneratorSupply, part: string, r_ohm: number, x_ohm: number): Assumption[] {
  const fixed = `fixed ${shown(r_ohm, "ohm")} and ${shown(x_ohm, "ohm")} reactance: first estimate, no regulator`;
  const found = [assumed(part, "generator as a fixed impedance", fixed, null)];
  const add = (
    what: string,
    unit: string,
    { nominal, low, high }: { nominal: number; low: number; high: number },
  ) => found.push(assumed(part, what, shown(nominal, unit), `${low} to ${shown(high, unit)}`));
  add("generator resistance", "per unit", defaults.resistance_pu);
  if (spec.transientReactance_pu === undefined) {
    add("transient reactance", "per unit", defaults.transientReactance_pu);
  }
  if (spec.regulatorRecovery_s === undefined) add("regulator recovery", "s", defaults.regulatorRecovery_s);
  return found;
}
