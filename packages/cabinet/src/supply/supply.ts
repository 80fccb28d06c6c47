import { isWithin } from "../cable/check.ts";
import type { Derived } from "../grade.ts";
import type { Issue } from "../issue.ts";
import { nearestName } from "../nearest.ts";
import { readingsProblems } from "./checkReadings.ts";
import { faultCurrentProblems, fromFaultCurrent } from "./faultCurrent.ts";
import { fromGenerator, generatorProblems } from "./generator.ts";
import { fromInverter, inverterProblems } from "./inverter.ts";
import { fromReadings } from "./readings.ts";
import type { OutrightSupply, SupplyFound, SupplySpec } from "./spec.ts";
import { fromUtility, utilityProblems } from "./utility.ts";

const ways: readonly SupplySpec["from"][] = [
  "impedance",
  "fault current",
  "utility transformer",
  "readings",
  "generator",
  "inverter",
];

/**
 * A supply as a voltage behind an impedance, from whatever is known of it.
 *
 * @param part name of the part, for the list of assumptions
 * @returns voltage, frequency and impedance with what was assumed; for readings how good they are; for a generator or
 *   an inverter also what makes it one. Or everything wrong with the description.
 * Checked by packages/cabinet/test/supply.test.ts, supply-readings.test.ts and tests/published/supply-*.
 */
export function supplyFrom(spec: SupplySpec, part = "supply"): Derived<SupplyFound> | Issue[] {
  const issues: Issue[] = [];
  isWithin(issues, "voltage", spec.voltage_V, {
    a: "a voltage",
    unit: "V",
    from: 1,
    to: 1e5,
    example: '"240 V"',
  });
  isWithin(issues, "frequency", spec.frequency_Hz, {
    a: "a frequency",
    unit: "Hz",
    from: 15,
    to: 400,
    example: '"60 Hz"',
  });
  issues.push(...problemsOf(spec));
  return issues.length > 0 ? issues : derive(spec, part);
}

function problemsOf(spec: SupplySpec): Issue[] {
  switch (spec.from) {
    case "impedance":
      return outrightProblems(spec);
    case "fault current":
      return faultCurrentProblems(spec);
    case "utility transformer":
      return utilityProblems(spec);
    case "readings":
      return readingsProblems(spec);
    case "generator":
      return generatorProblems(spec);
    case "inverter":
      return inverterProblems(spec);
    default:
      return [unknownWay((spec as { readonly from: unknown }).from)];
  }
}

function derive(spec: SupplySpec, part: string): Derived<SupplyFound> | Issue[] {
  switch (spec.from) {
    case "impedance":
      return { value: outright(spec), assumptions: [] };
    case "fault current":
      return fromFaultCurrent(spec, part);
    case "utility transformer":
      return fromUtility(spec, part);
    case "readings":
      return fromReadings(spec, part);
    case "generator":
      return fromGenerator(spec, part);
    case "inverter":
      return fromInverter(spec, part);
  }
}

const outright = ({ voltage_V, frequency_Hz, impedance }: OutrightSupply): SupplyFound => ({
  voltage_V,
  frequency_Hz,
  r_ohm: impedance.r_ohm,
  x_ohm: impedance.x_ohm,
});

function outrightProblems({ impedance }: OutrightSupply): Issue[] {
  const issues: Issue[] = [];
  const limit = { unit: "ohm", from: 0, to: 1e6, example: '"0.12 ohm"' };
  isWithin(issues, "impedance.r", impedance?.r_ohm, { a: "a resistance", ...limit });
  isWithin(issues, "impedance.x", impedance?.x_ohm, { a: "a reactance", ...limit });
  return issues;
}

function unknownWay(from: unknown): Issue {
  const received = typeof from === "string" ? `"${from.slice(0, 78)}"` : String(from).slice(0, 80);
  const nearest = typeof from === "string" ? nearestName(from, ways) : undefined;
  const issue = { path: "from", expected: `one of ${ways.map((way) => `"${way}"`).join(", ")}`, received };
  return nearest === undefined ? issue : { ...issue, nearest };
}
