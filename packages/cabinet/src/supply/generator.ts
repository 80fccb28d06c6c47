import { isWithin, isWithinIfStated, shown, shownRange } from "../cable/check.ts";
import type { Assumption, Derived } from "../grade.ts";
import type { Issue } from "../issue.ts";
import { assumed } from "./notes.ts";
import type { GeneratorSupply, SupplyFound } from "./spec.ts";

/** Portable sets; common practice, no source (from memory). */
const defaults = {
  transientReactance_pu: { nominal: 0.25, low: 0.15, high: 0.4 },
  resistance_pu: { nominal: 0.03, low: 0.01, high: 0.05 },
  regulatorRecovery_s: { nominal: 2.5, low: 2, high: 3 },
  synchronousReactance_pu: { nominal: 1.8, low: 1.2, high: 2.5 },
  fieldTime_s: { nominal: 0.6, low: 0.3, high: 1.2 },
  fieldCeiling: { nominal: 2, low: 1.5, high: 3 },
} as const;

/** Power factor at which sets are rated. */
const RATED_FACTOR = 0.8;

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
  isWithinIfStated(issues, "synchronousReactance", spec.synchronousReactance_pu, {
    a: "a synchronous reactance per unit, greater than the transient one,",
    unit: "",
    from: most,
    above: true,
    to: 5,
    example: "1.8",
  });
  fieldProblems(issues, spec);
  return issues;
}

function fieldProblems(issues: Issue[], spec: GeneratorSupply): void {
  isWithinIfStated(issues, "fieldTime", spec.fieldTime_s, {
    a: "a time constant of the field",
    unit: "s",
    from: 0.05,
    to: 10,
    example: '"0.6 s"',
  });
  isWithinIfStated(issues, "fieldCeiling", spec.fieldCeiling, {
    a: "a highest field, over that of the rated load,",
    unit: "",
    from: 1,
    to: 5,
    example: "2",
  });
}

/**
 * A generator: resistance and transient reactance as its impedance, field and regulator behind it.
 *
 * Per unit of V^2/S. The ceiling of the field is stated over the field of the rated load at power factor 0.8, which is
 * |1 + (R + j Xs)(0.8 - j 0.6)| times that of no load: so every set can hold its own rating.
 */
export function fromGenerator(spec: GeneratorSupply, part: string): Derived<SupplyFound> {
  const { voltage_V, frequency_Hz, rating_VA } = spec;
  const base_ohm = voltage_V ** 2 / rating_VA;
  const taken = (key: Key): number => spec[key] ?? defaults[key].nominal;
  const transient = taken("transientReactance_pu");
  const synchronous = taken("synchronousReactance_pu");
  const { low, high } =
    spec.transientReactance_pu === undefined
      ? defaults.transientReactance_pu
      : { low: transient, high: transient };
  const { resistance_pu } = defaults;
  return {
    value: {
      voltage_V,
      frequency_Hz,
      r_ohm: resistance_pu.nominal * base_ohm,
      x_ohm: transient * base_ohm,
      range: {
        r_ohm: [resistance_pu.low * base_ohm, resistance_pu.high * base_ohm],
        x_ohm: [low * base_ohm, high * base_ohm],
      },
      source: {
        is: "generator",
        rating_VA,
        synchronous_ohm: synchronous * base_ohm,
        fieldTime_s: taken("fieldTime_s"),
        ceiling: taken("fieldCeiling") * ratedField(resistance_pu.nominal, synchronous),
        recovery_s: taken("regulatorRecovery_s"),
      },
    },
    assumptions: notes(spec, part),
  };
}

/** Field of the rated load over that of no load: |1 + (R + j X)(pf - j sqrt(1 - pf^2))|, per unit. */
function ratedField(r: number, x: number): number {
  const sine = Math.sqrt(1 - RATED_FACTOR ** 2);
  return Math.hypot(1 + r * RATED_FACTOR + x * sine, x * RATED_FACTOR - r * sine);
}

type Key = Exclude<keyof typeof defaults, "resistance_pu">;

const told: readonly (readonly [key: Key, what: string, unit: string])[] = [
  ["transientReactance_pu", "transient reactance", "per unit"],
  ["synchronousReactance_pu", "synchronous reactance", "per unit"],
  ["fieldTime_s", "open-circuit time constant of the field", "s"],
  ["fieldCeiling", "highest field over that of the rated load", ""],
  ["regulatorRecovery_s", "regulator recovery", "s"],
];

function notes(spec: GeneratorSupply, part: string): Assumption[] {
  const one = (what: string, unit: string, span: { nominal: number; low: number; high: number }) =>
    assumed(part, what, shown(span.nominal, unit), shownRange(span.low, span.high, unit));
  const silent = told.filter(([key]) => spec[key] === undefined);
  return [
    assumed(part, "engine speed", "steady, no dip of the frequency", null),
    one("generator resistance", "per unit", defaults.resistance_pu),
    ...silent.map(([key, what, unit]) => one(what, unit, defaults[key])),
  ];
}
