import type { Impedance } from "@startgap/circuit";
import { shown, shownRange } from "../cable/check.ts";
import { type ImpedanceRange, ofMagnitude, rangeOfMagnitude, scaled } from "../cable/impedance.ts";
import type { Assumption, Derived } from "../grade.ts";
import type { Issue } from "../issue.ts";
import { problemsOf } from "./checkSpec.ts";
import { excitationOf } from "./excitation.ts";
import { LARGEST_VA, SMALLEST_VA, smallUnit } from "./smallUnits.ts";
import type { TestReading, TransformerFound, TransformerSpec } from "./spec.ts";

interface Leakage {
  readonly impedance: Impedance;
  readonly range: ImpedanceRange | null;
  readonly assumptions: readonly Assumption[];
}

/** Common practice, no source: dry-type units whose plate tells the percentage but no X/R. */
const RATIO_SPREAD = { low: 0.5, high: 2 } as const;

/**
 * Leakage and excitation of a transformer from what is known: ohms outright, percent impedance, tests, or rating
 * alone.
 *
 * Leakage is referred to the first winding: percent of V1^2/S. A short-circuit test gives |Z| = V/I and R = P/I^2 on
 * the side that was fed. An autotransformer is described by its windings as a two-winding transformer; the same
 * leakage then holds, see legVoltages.
 *
 * Assumptions: resistance at the temperature of the test or the plate; no change of leakage with load.
 *
 * @param part name of the part, for the list of assumptions
 * @returns the values with what was assumed, or everything wrong with the description
 * Checked by tests/published/transformers-fitzgerald, transformers-chapman and packages/cabinet/test/transformer.test.ts.
 */
export function transformerFrom(
  spec: TransformerSpec,
  part: string = spec.is,
): Derived<TransformerFound> | Issue[] {
  const issues = problemsOf(spec);
  if (issues.length > 0) return issues;
  const leakage = leakageOf(spec, part);
  const { excitation, assumptions } = excitationOf(spec, part);
  return {
    value: {
      is: spec.is,
      windings_V: spec.windings_V,
      rating_VA: spec.rating_VA ?? null,
      ...leakage.impedance,
      excitation,
      range: leakage.range,
    },
    assumptions: [...leakage.assumptions, ...assumptions],
  };
}

function leakageOf(spec: TransformerSpec, part: string): Leakage {
  if (spec.impedance !== undefined) return { impedance: spec.impedance, range: null, assumptions: [] };
  if (spec.shortCircuit !== undefined) {
    return { impedance: fromTest(spec, spec.shortCircuit), range: null, assumptions: [] };
  }
  const base_ohm = spec.windings_V[0] ** 2 / spec.rating_VA!;
  if (spec.impedance_percent === undefined) return fromRating(spec.rating_VA!, base_ohm, spec.xOverR, part);
  return fromPercent(spec.impedance_percent, base_ohm, spec, part);
}

function fromTest({ windings_V: [first_V, second_V] }: TransformerSpec, test: TestReading): Impedance {
  const z_ohm = test.voltage_V / test.current_A;
  const r_ohm = test.power_W / test.current_A ** 2;
  const fed = { r_ohm, x_ohm: Math.sqrt(Math.max(0, z_ohm ** 2 - r_ohm ** 2)) };
  return test.side === "first" ? fed : scaled(fed, (first_V / second_V) ** 2);
}

function fromPercent(percent: number, base_ohm: number, spec: TransformerSpec, part: string): Leakage {
  const z_ohm = (percent / 100) * base_ohm;
  if (spec.xOverR !== undefined) {
    return { impedance: ofMagnitude(z_ohm, spec.xOverR), range: null, assumptions: [] };
  }
  const { xOverR } = smallUnit(Math.min(Math.max(spec.rating_VA!, SMALLEST_VA), LARGEST_VA));
  return {
    impedance: ofMagnitude(z_ohm, xOverR),
    range: rangeOfMagnitude([z_ohm, z_ohm], [RATIO_SPREAD.low * xOverR, RATIO_SPREAD.high * xOverR]),
    assumptions: [ratioNote(xOverR, part)],
  };
}

function fromRating(rating_VA: number, base_ohm: number, stated: number | undefined, part: string): Leakage {
  const unit = smallUnit(rating_VA);
  const ohm = (percent: number) => (percent / 100) * base_ohm;
  const xOverR = stated ?? unit.xOverR;
  const ratios: readonly [number, number] =
    stated === undefined ? [RATIO_SPREAD.low * xOverR, RATIO_SPREAD.high * xOverR] : [stated, stated];
  const note: Assumption = {
    part,
    what: "impedance",
    value: shown(unit.impedance_percent, "%"),
    range: shownRange(unit.low_percent, unit.high_percent, "%"),
    grade: "assumed",
    basis: "common practice, no source",
  };
  return {
    impedance: ofMagnitude(ohm(unit.impedance_percent), xOverR),
    range: rangeOfMagnitude([ohm(unit.low_percent), ohm(unit.high_percent)], ratios),
    assumptions: stated === undefined ? [note, ratioNote(xOverR, part)] : [note],
  };
}

function ratioNote(xOverR: number, part: string): Assumption {
  return {
    part,
    what: "ratio X/R",
    value: shown(xOverR, ""),
    range: shownRange(RATIO_SPREAD.low * xOverR, RATIO_SPREAD.high * xOverR, ""),
    grade: "assumed",
    basis: "common practice, no source",
  };
}
