import { isWithin, isWithinIfStated, shown } from "../cable/check.ts";
import type { Issue } from "../issue.ts";
import { LARGEST_VA, SMALLEST_VA } from "./smallUnits.ts";
import { inputVoltage_V, type TestReading, type TransformerSpec } from "./spec.ts";

const ratingLimit = { a: "a rating", unit: "VA", from: 0, above: true, to: 1e8, example: '"3 kVA"' } as const;

/** Everything wrong with a description, none when it can be worked out. */
export function problemsOf(spec: TransformerSpec): Issue[] {
  const issues: Issue[] = [];
  checkKind(issues, spec);
  const windings = checkWindings(issues, spec);
  checkImpedance(issues, spec);
  checkRating(issues, spec);
  checkTest(issues, "shortCircuit", spec.shortCircuit);
  checkTest(issues, "openCircuit", spec.openCircuit);
  if (windings) checkIdle(issues, spec);
  return issues;
}

function checkKind(issues: Issue[], { is }: TransformerSpec): void {
  if (is === "transformer" || is === "autotransformer") return;
  issues.push({
    path: "is",
    expected: '"transformer" or "autotransformer"',
    received: `"${String(is)}"`.slice(0, 80),
  });
}

function checkWindings(issues: Issue[], { windings_V }: TransformerSpec): boolean {
  if (!Array.isArray(windings_V) || windings_V.length !== 2) {
    const received = Array.isArray(windings_V) ? `a list of ${windings_V.length}` : "nothing";
    issues.push({ path: "windings", expected: 'two voltages, as ["120 V", "120 V"]', received });
    return false;
  }
  const limit = { a: "a winding voltage", unit: "V", from: 1, to: 1e5, example: '"120 V"' };
  return windings_V.map((V, k) => isWithin(issues, `windings[${k}]`, V, limit)).every((fine) => fine);
}

function checkImpedance(issues: Issue[], spec: TransformerSpec): void {
  const { impedance, impedance_percent, shortCircuit, xOverR } = spec;
  const ways = [impedance, impedance_percent, shortCircuit].filter((way) => way !== undefined).length;
  if (ways > 1) {
    const expected = "the impedance in one way: in ohms, in percent or by a short-circuit test";
    issues.push({ path: "impedance", expected, received: `${ways} ways` });
  }
  if (impedance !== undefined) checkOutright(issues, impedance);
  isWithinIfStated(issues, "impedance", impedance_percent, {
    a: "an impedance in percent",
    unit: "%",
    from: 0,
    above: true,
    to: 50,
    example: '"4.5 %"',
  });
  isWithinIfStated(issues, "xOverR", xOverR, {
    a: "a ratio X/R",
    unit: "",
    from: 0,
    to: 100,
    example: "0.5",
  });
  if (xOverR !== undefined && (impedance !== undefined || shortCircuit !== undefined)) {
    const expected = "no xOverR beside an impedance in ohms or a short-circuit test, which hold it already";
    issues.push({ path: "xOverR", expected, received: String(xOverR) });
  }
}

function checkOutright(issues: Issue[], impedance: { r_ohm: number; x_ohm: number }): void {
  const limit = { unit: "ohm", from: 0, to: 1e6, example: '"0.12 ohm"' };
  isWithin(issues, "impedance.r", impedance.r_ohm, { a: "a resistance", ...limit });
  isWithin(issues, "impedance.x", impedance.x_ohm, { a: "a reactance", ...limit });
}

function checkRating(issues: Issue[], spec: TransformerSpec): void {
  if (spec.impedance !== undefined && spec.rating_VA === undefined) {
    if (spec.excitingCurrent_percent !== undefined) isWithin(issues, "rating", undefined, ratingLimit);
    return;
  }
  if (!isWithin(issues, "rating", spec.rating_VA, ratingLimit)) return;
  const needsDefault = spec.impedance === undefined && spec.impedance_percent === undefined;
  if (!needsDefault || spec.shortCircuit !== undefined) return;
  if (spec.rating_VA >= SMALLEST_VA && spec.rating_VA <= LARGEST_VA) return;
  const expected = `an impedance, as "4.5 %": there is a default from ${SMALLEST_VA} VA to ${LARGEST_VA / 1000} kVA only`;
  issues.push({ path: "impedance", expected, received: `nothing, rating ${shown(spec.rating_VA, "VA")}` });
}

function checkTest(issues: Issue[], path: string, test: TestReading | undefined): void {
  if (test === undefined) return;
  const positive = (key: string, value: number, a: string, unit: string, example: string) =>
    isWithin(issues, `${path}.${key}`, value, { a, unit, from: 0, above: true, to: 1e6, example });
  const fine = [
    positive("voltage", test.voltage_V, "a voltage", "V", '"48 V"'),
    positive("current", test.current_A, "a current", "A", '"20.8 A"'),
    positive("power", test.power_W, "a power", "W", '"617 W"'),
  ].every((ok) => ok);
  if (test.side !== "first" && test.side !== "second") {
    issues.push({
      path: `${path}.side`,
      expected: '"first" or "second"',
      received: `"${String(test.side)}"`.slice(0, 80),
    });
  }
  const most_W = test.voltage_V * test.current_A;
  if (fine && test.power_W > most_W) {
    const expected = `a power up to voltage times current, ${shown(most_W, "W")}`;
    issues.push({ path: `${path}.power`, expected, received: shown(test.power_W, "W") });
  }
}

function checkIdle(issues: Issue[], spec: TransformerSpec): void {
  const { idleLoss_W, excitingCurrent_percent, excitingCurrent_A, openCircuit } = spec;
  const fine = [
    isWithinIfStated(issues, "idleLoss", idleLoss_W, {
      a: "an idle loss",
      unit: "W",
      from: 0,
      to: 1e6,
      example: '"40 W"',
    }),
    isWithinIfStated(issues, "excitingCurrent", excitingCurrent_percent, {
      a: "an exciting current",
      unit: "%",
      from: 0,
      to: 100,
      example: '"5 %"',
    }),
    isWithinIfStated(issues, "excitingCurrent", excitingCurrent_A, {
      a: "an exciting current",
      unit: "A",
      from: 0,
      to: 1e4,
      example: '"1.2 A"',
    }),
  ].every((ok) => ok);
  if (excitingCurrent_percent !== undefined && excitingCurrent_A !== undefined) {
    issues.push({ path: "excitingCurrent", expected: "either amperes or percent", received: "both" });
  }
  const stated = [idleLoss_W, excitingCurrent_percent, excitingCurrent_A].some(
    (value) => value !== undefined,
  );
  if (openCircuit !== undefined && stated) {
    const expected = "no idle loss or exciting current beside an open-circuit test, which holds both";
    issues.push({ path: "openCircuit", expected, received: "both" });
  }
  if (fine) checkLossAgainstCurrent(issues, spec);
}

/** The loss is part of what the exciting current carries: P <= V I. */
function checkLossAgainstCurrent(issues: Issue[], spec: TransformerSpec): void {
  const drawn_VA = excitingPower_VA(spec);
  if (drawn_VA === undefined || spec.idleLoss_W === undefined || spec.idleLoss_W <= drawn_VA) return;
  const expected = `an idle loss up to what the exciting current carries, ${shown(drawn_VA, "VA")}`;
  issues.push({ path: "idleLoss", expected, received: shown(spec.idleLoss_W, "W") });
}

/** Volt-amperes of the stated exciting current at rated voltage; undefined when it is not stated. */
export function excitingPower_VA(spec: TransformerSpec): number | undefined {
  if (spec.excitingCurrent_A !== undefined) return spec.excitingCurrent_A * inputVoltage_V(spec);
  if (spec.excitingCurrent_percent === undefined || spec.rating_VA === undefined) return undefined;
  return (spec.excitingCurrent_percent / 100) * spec.rating_VA;
}
