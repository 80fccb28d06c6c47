import type { Impedance } from "@startgap/circuit";
import { shown } from "../cable/check.ts";
import type { ImpedanceRange } from "../cable/impedance.ts";
import type { Assumption, Derived } from "../grade.ts";
import type { Issue } from "../issue.ts";
import { seenFromLeg, turnsShares } from "../transformer/legs.ts";
import { type Line, lineThrough } from "./line.ts";
import { accuracyOf, dropError_ohm, qualityText } from "./meter.ts";
import { assumed } from "./notes.ts";
import type { ReadingsSupply, SupplyFound } from "./spec.ts";

const DEFAULT_RATIO = { nominal: 0.5, low: 0.1, high: 1.5 } as const;

/** Bisection ends on the spacing of numbers long before this. */
const ITERATIONS = 100;
const SMALLEST_STEP = 1e-14;
/** Relative; anything worse is no answer but the edge of what can be computed. */
const STANDS_STILL = 1e-6;

/** Readings further than this from nominal were not taken where they are said to be: 120 V at a 240 V line. */
const FAR_OFF = 0.3;

/** What lies between the supply and the meter, and how the test load draws its current. */
interface Setting {
  /** Share of the supply's impedance that the meter sees: 1 at the line, k^2 at a leg. */
  readonly share: number;
  /** Share of the supply's voltage that the meter sees. */
  readonly turns: number;
  /** In series with it, not part of the supply. */
  readonly between: Impedance;
  readonly cosine: number;
  readonly sine: number;
  readonly xOverR: number;
}

/**
 * Supply impedance from volts and amperes at two or more loads.
 *
 * With load current I at power factor cos phi the voltage there is V = sqrt(E^2 - q^2) - D I, where
 * D = R cos phi + X sin phi and q = (X cos phi - R sin phi) I. So V + (E - sqrt(E^2 - q^2)) = E - D I is a straight
 * line, and R is the one that both bends the readings and follows from the slope, with the ratio X/R, which such
 * readings cannot tell. At a leg, the transformer's leakage is taken off and the rest divided by
 * the square of the turns share.
 *
 * The impedance is that of everything upstream of the meter: do not list a feeder again that lies in between.
 *
 * @returns the supply with its range, or why the readings are of no use
 * Checked by packages/cabinet/test/supply-readings.test.ts: impedance to readings and back.
 */
export function fromReadings(spec: ReadingsSupply, part: string): Derived<SupplyFound> | Issue[] {
  const setting = settingOf(spec);
  const found = solve(spec, setting);
  if (Array.isArray(found)) return found;
  const { line, r_ohm } = found;
  const voltage_V = line.open_V / setting.turns;
  if (Math.abs(voltage_V / spec.voltage_V - 1) > FAR_OFF) return [elsewhere(spec, line, setting)];
  const error_ohm = errorOf(spec, setting, line);
  if (error_ohm >= r_ohm) return [useless(line, error_ohm / r_ohm)];
  return {
    value: {
      voltage_V,
      frequency_Hz: spec.frequency_Hz,
      r_ohm,
      x_ohm: setting.xOverR * r_ohm,
      quality: qualityText(error_ohm / r_ohm, isRepeated(spec)),
      range: rangeOf(spec, setting, line, r_ohm, error_ohm),
    },
    assumptions: notes(spec, part),
  };
}

function settingOf({
  at = "line",
  loadPowerFactor = 1,
  xOverR = DEFAULT_RATIO.nominal,
}: ReadingsSupply): Setting {
  const load = { cosine: loadPowerFactor, sine: Math.sqrt(1 - loadPowerFactor ** 2), xOverR };
  if (at === "line") return { share: 1, turns: 1, between: { r_ohm: 0, x_ohm: 0 }, ...load };
  const turns = turnsShares(at.windings_V)[0];
  return { share: turns ** 2, turns, between: seenFromLeg(at.windings_V, at.leakage), ...load };
}

/** Drop for each ampere and each ohm of supply resistance: cos phi + k sin phi. */
const dropPerOhm = ({ cosine, sine, xOverR }: Setting): number => cosine + xOverR * sine;

/** Supply resistance from a drop at the meter, ohm. */
function resistanceOf(drop_ohm: number, setting: Setting): number {
  const { share, between, cosine, sine } = setting;
  return (drop_ohm - between.r_ohm * cosine - between.x_ohm * sine) / (share * dropPerOhm(setting));
}

/** How far the supply resistance may be off, ohm: the meters, and what is not known of the transformer between. */
function errorOf(spec: ReadingsSupply, setting: Setting, line: Line): number {
  const { cosine, sine, share } = setting;
  const half = ([low, high]: readonly [number, number]) => (high - low) / 2;
  let leakage_ohm = 0;
  if (spec.at !== undefined && spec.at !== "line" && spec.at.leakageRange) {
    const { r_ohm, x_ohm } = spec.at.leakageRange;
    leakage_ohm = (1 - setting.turns) ** 2 * (half(r_ohm) * cosine + half(x_ohm) * sine);
  }
  const meter_ohm = dropError_ohm(line, accuracyOf(spec.meter), line.open_V);
  return Math.hypot(meter_ohm, leakage_ohm) / (share * dropPerOhm(setting));
}

interface Solution {
  readonly line: Line;
  readonly r_ohm: number;
}

/**
 * Bisection on the supply resistance: the one that is the same before and after the fit. More resistance bends the
 * line more, which leaves less for the drop; without any bend the drop is largest, so the answer lies below that.
 */
function solve(spec: ReadingsSupply, setting: Setting): Solution | Issue[] {
  const straight = lineThrough(currentsOf(spec), voltsOf(spec));
  if (straight.drop_ohm <= 0) return [rising(spec)];
  const least = straightened(spec, setting, straight, 0);
  if (least === null) return [tooMuch(straight)];
  if (resistanceOf(least.drop_ohm, setting) <= 0) return [allLeakage(straight, setting)];
  let [low, high] = [0, resistanceOf(straight.drop_ohm, setting)];
  for (let k = 0; k < ITERATIONS && high - low > SMALLEST_STEP * high; k++) {
    const middle = (low + high) / 2;
    const line = straightened(spec, setting, straight, middle);
    if (line !== null && resistanceOf(line.drop_ohm, setting) > middle) low = middle;
    else high = middle;
  }
  const line = straightened(spec, setting, straight, low);
  const stands = line !== null && Math.abs(resistanceOf(line.drop_ohm, setting) - low) < STANDS_STILL * low;
  return stands ? { line, r_ohm: low } : [tooMuch(straight)];
}

/**
 * The line through the readings with the bend of that supply resistance taken out; null where the drop across the
 * voltage would exceed the voltage. The open voltage is part of the bend: a few rounds settle it.
 */
function straightened(spec: ReadingsSupply, setting: Setting, straight: Line, r_ohm: number): Line | null {
  const across_ohm = acrossOf(r_ohm, setting);
  const [currents, volts] = [currentsOf(spec), voltsOf(spec)];
  let line = straight;
  for (let k = 0; k < ITERATIONS; k++) {
    const { open_V } = line;
    const inPhase = currents.map((current_A) => Math.sqrt(open_V ** 2 - (across_ohm * current_A) ** 2));
    if (!inPhase.every((V) => V > 0)) return null;
    line = lineThrough(
      currents,
      volts.map((V, n) => V + open_V - inPhase[n]!),
    );
    if (Math.abs(line.open_V - open_V) < SMALLEST_STEP * open_V) break;
  }
  return line;
}

const currentsOf = ({ readings }: ReadingsSupply): number[] => readings.map((reading) => reading.current_A);

const voltsOf = ({ readings }: ReadingsSupply): number[] => readings.map((reading) => reading.voltage_V);

/** Drop across the voltage, for each ampere: X cos phi - R sin phi of supply and transformer together. */
function acrossOf(r_ohm: number, { share, between, cosine, sine, xOverR }: Setting): number {
  const R = share * r_ohm + between.r_ohm;
  const X = share * xOverR * r_ohm + between.x_ohm;
  return X * cosine - R * sine;
}

/** True when the load was taken off again, so that a drift of the supply shows. */
function isRepeated({ readings }: ReadingsSupply): boolean {
  const turns = readings.slice(1).map((reading, k) => Math.sign(reading.current_A - readings[k]!.current_A));
  return turns.includes(1) && turns.includes(-1);
}

/** Both parts at the ends of what the meter, and where not stated the ratio, leave open. */
function rangeOf(
  spec: ReadingsSupply,
  setting: Setting,
  line: Line,
  r_ohm: number,
  error_ohm: number,
): ImpedanceRange {
  const stated = spec.xOverR;
  const ratios = stated === undefined ? [DEFAULT_RATIO.low, DEFAULT_RATIO.high] : [stated, stated];
  const [low, high] = ratios.map((xOverR) =>
    Math.max(resistanceOf(line.drop_ohm, { ...setting, xOverR }), 0),
  );
  const most = Math.max(low!, high!, r_ohm) + error_ohm;
  const least = Math.max(Math.min(low!, high!, r_ohm) - error_ohm, 0);
  return {
    r_ohm: [least, most],
    x_ohm: [ratios[0]! * Math.max(low! - error_ohm, 0), ratios[1]! * (high! + error_ohm)],
  };
}

function notes(spec: ReadingsSupply, part: string): Assumption[] {
  const found: Assumption[] = [];
  if (spec.xOverR === undefined) {
    const { nominal, low, high } = DEFAULT_RATIO;
    found.push(assumed(part, "ratio X/R, which readings cannot tell", `${nominal}`, `${low} to ${high}`));
  }
  if (spec.loadPowerFactor === undefined)
    found.push(assumed(part, "power factor of the test load", "1, a heater", null));
  const accuracy = accuracyOf(spec.meter);
  if (Object.values(spec.meter ?? {}).every((value) => value === undefined)) {
    const volts = `+-${accuracy.voltage_percent} % + ${accuracy.voltageCounts} counts of ${accuracy.voltageCount_V} V`;
    const amperes = `+-${accuracy.current_percent} % + ${accuracy.currentCounts} counts of ${accuracy.currentCount_A} A`;
    found.push(assumed(part, "meter accuracy", `${volts}; ${amperes}`, null));
  }
  if (spec.meter?.oneMeter === undefined)
    found.push(assumed(part, "voltages read with", "one meter on one range", null));
  return found;
}

const lowerUnderLoad = "a lower voltage under load than without; read unloaded, loaded, unloaded again";

function rising({ readings }: ReadingsSupply): Issue {
  const by = [...readings].sort((a, b) => a.current_A - b.current_A);
  const text = ({ voltage_V, current_A }: ReadingsSupply["readings"][number]) =>
    `${voltage_V} V at ${shown(current_A, "A")}`;
  return { path: "readings", expected: lowerUnderLoad, received: `${text(by[0]!)} and ${text(by.at(-1)!)}` };
}

function allLeakage(line: Line, { between }: Setting): Issue {
  const own_ohm = Math.hypot(between.r_ohm, between.x_ohm);
  return {
    path: "readings",
    expected: `a drop above what the transformer's own ${shown(own_ohm, "ohm")} at the leg cause`,
    received: shown(line.drop_ohm, "ohm"),
  };
}

function elsewhere(spec: ReadingsSupply, line: Line, { turns }: Setting): Issue {
  const where = turns === 1 ? "at the line" : "at the leg";
  const expected = `voltages near ${shown(turns * spec.voltage_V, "V")} ${where}, within 30 %`;
  return { path: "readings", expected, received: `${shown(line.open_V, "V")} without load` };
}

function tooMuch(line: Line): Issue {
  const expected = "a drop that leaves most of the voltage; check the ratio X/R and the amperes";
  return {
    path: "readings",
    expected,
    received: `${shown(line.drop_ohm, "ohm")} on ${shown(line.open_V, "V")}`,
  };
}

function useless(line: Line, relative: number): Issue {
  return {
    path: "readings",
    expected:
      "a drop clearly above what the meter can tell: use a larger load, more repeats or a better meter",
    received: `${shown(line.drop_ohm, "ohm")}, known to +-${Math.ceil(100 * relative)} %`,
  };
}
