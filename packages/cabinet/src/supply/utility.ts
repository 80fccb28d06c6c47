import type { Impedance } from "@startgap/circuit";
import { cableImpedance } from "../cable/cable.ts";
import { isWithin, isWithinIfStated, under } from "../cable/check.ts";
import { type ImpedanceRange, inSeries, ofMagnitude, rangeOfMagnitude } from "../cable/impedance.ts";
import type { Assumption, Derived } from "../grade.ts";
import type { Issue } from "../issue.ts";
import { DEFAULT_RATIO, ratioLimit, ratioNote } from "./faultCurrent.ts";
import { assumed } from "./notes.ts";
import type { SupplyFound, UtilitySupply } from "./spec.ts";

/** Pole and pad transformers: common practice, no source (from memory). */
const DEFAULT_PERCENT = { nominal: 2, low: 1.2, high: 3 } as const;

export function utilityProblems(spec: UtilitySupply): Issue[] {
  const issues: Issue[] = [];
  isWithin(issues, "rating", spec.rating_VA, {
    a: "a transformer rating",
    unit: "VA",
    from: 0,
    above: true,
    to: 1e8,
    example: '"25 kVA"',
  });
  isWithinIfStated(issues, "impedance", spec.impedance_percent, {
    a: "an impedance in percent",
    unit: "%",
    from: 0,
    above: true,
    to: 50,
    example: '"2 %"',
  });
  isWithinIfStated(issues, "xOverR", spec.xOverR, ratioLimit);
  const service = serviceOf(spec, "");
  if (Array.isArray(service)) issues.push(...under("service", service));
  return issues;
}

/**
 * Utility transformer and service conductors in series: Z = percent of V^2/S, plus the loop of the conductors.
 *
 * The network ahead of the transformer is taken as stiff, and the assumption says so. Checked by
 * tests/published/supply-portal and packages/cabinet/test/supply.test.ts.
 */
export function fromUtility(spec: UtilitySupply, part: string): Derived<SupplyFound> {
  const { voltage_V, frequency_Hz, rating_VA, impedance_percent, xOverR } = spec;
  const base_ohm = voltage_V ** 2 / rating_VA;
  const percent = impedance_percent ?? DEFAULT_PERCENT.nominal;
  const own = ofMagnitude((percent / 100) * base_ohm, xOverR ?? DEFAULT_RATIO.nominal);
  const service = serviceOf(spec, part) as Derived<Impedance>;
  const range = rangeOf(spec, base_ohm, service.value);
  const value = { voltage_V, frequency_Hz, ...inSeries(own, service.value) };
  return {
    value: range === undefined ? value : { ...value, range },
    assumptions: [...notes(spec, part), ...service.assumptions],
  };
}

function serviceOf(spec: UtilitySupply, part: string): Derived<Impedance> | Issue[] {
  if (spec.service === undefined) return { value: { r_ohm: 0, x_ohm: 0 }, assumptions: [] };
  const { frequency_Hz } = spec;
  const usable = frequency_Hz >= 15 && frequency_Hz <= 400;
  return cableImpedance({ ...spec.service, frequency_Hz: usable ? frequency_Hz : 60 }, part);
}

function rangeOf(spec: UtilitySupply, base_ohm: number, service: Impedance): ImpedanceRange | undefined {
  if (spec.impedance_percent !== undefined && spec.xOverR !== undefined) return undefined;
  const ohm = (percent: number) => (percent / 100) * base_ohm;
  const stated = spec.impedance_percent;
  const { low, high } = stated === undefined ? DEFAULT_PERCENT : { low: stated, high: stated };
  const ratios = spec.xOverR === undefined ? DEFAULT_RATIO : { low: spec.xOverR, high: spec.xOverR };
  const own = rangeOfMagnitude([ohm(low), ohm(high)], [ratios.low, ratios.high]);
  return {
    r_ohm: [own.r_ohm[0] + service.r_ohm, own.r_ohm[1] + service.r_ohm],
    x_ohm: [own.x_ohm[0] + service.x_ohm, own.x_ohm[1] + service.x_ohm],
  };
}

function notes(spec: UtilitySupply, part: string): Assumption[] {
  const found = [assumed(part, "network ahead of the utility transformer", "stiff", null)];
  if (spec.impedance_percent === undefined) {
    const { nominal, low, high } = DEFAULT_PERCENT;
    found.push(assumed(part, "utility transformer impedance", `${nominal} %`, `${low} to ${high} %`));
  }
  if (spec.xOverR === undefined) found.push(ratioNote(part));
  if (spec.service === undefined) found.push(assumed(part, "service conductors", "none", null));
  return found;
}
