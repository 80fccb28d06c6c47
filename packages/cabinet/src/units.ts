/** One unit of a dimension: the name shown, others accepted, and its value in SI: `si = offset + scale * x`. */
export interface Unit {
  readonly name: string;
  readonly also: readonly string[];
  readonly scale: number;
  /** Only temperatures have one. */
  readonly offset: number;
}

export interface Dimension {
  /** With its article, as "a voltage". */
  readonly a: string;
  /** The unit in which values are kept, as shown to people: SI, but speeds in rpm, as plates and results say them. */
  readonly si: string;
  readonly units: readonly Unit[];
  /** Units by their plain spelling, as written and without regard to capitals. */
  readonly exact: ReadonlyMap<string, Unit>;
  readonly loose: ReadonlyMap<string, Unit>;
}

const unit = (name: string, scale: number, also: readonly string[] = [], offset = 0): Unit => ({
  name,
  also,
  scale,
  offset,
});

/** One spelling of a unit: "kg·m²" and "kg m^2" become "kgm2". */
function plain(text: string): string {
  return text
    .replace(/[\s·⋅.*^-]/g, "")
    .replace(/²/g, "2")
    .replace(/³/g, "3")
    .replace(/°/g, "deg")
    .replace(/[\u00b5\u03bc]/g, "u")
    .replace(/[\u2126\u03a9]/g, "ohm");
}

/** Without regard to capitals, but for a leading m or M, where they make a million of a thousandth. */
const anyCase = (text: string): string =>
  text.startsWith("M") ? `M${text.slice(1).toLowerCase()}` : text.toLowerCase();

function bySpelling(units: readonly Unit[], spelling: (text: string) => string): Map<string, Unit> {
  return new Map(units.flatMap((u) => [u.name, ...u.also].map((name) => [spelling(name), u] as const)));
}

const dimension = (a: string, si: string, units: readonly Unit[]): Dimension => ({
  a,
  si,
  units,
  exact: bySpelling(units, plain),
  loose: bySpelling(units, (text) => anyCase(plain(text))),
});

/** International foot and pound: exact by definition. Source: NIST SP 811, appendix B.8. */
const FOOT_M = 0.3048;
const POUND_KG = 0.45359237;
const STANDARD_GRAVITY_MPS2 = 9.80665;
const POUND_FOOT_NM = POUND_KG * STANDARD_GRAVITY_MPS2 * FOOT_M;
/** Mechanical horsepower, 550 ft lbf/s: 745.6999 W. Source: NIST SP 811, appendix B.8. */
const HORSEPOWER_W = 550 * POUND_FOOT_NM;
/** International gallon of the United States: 231 cubic inches. Source: NIST SP 811, appendix B.8. */
const GALLON_M3 = 231 * (FOOT_M / 12) ** 3;
const PSI_PA = (POUND_KG * STANDARD_GRAVITY_MPS2) / (FOOT_M / 12) ** 2;
const RADPS_RPM = 30 / Math.PI;
/** Circular mil: a disc one thousandth of an inch across. */
const KCMIL_M2 = 1000 * (Math.PI / 4) * (FOOT_M / 12000) ** 2;

/**
 * Every unit that a cabinet file may be written in.
 *
 * A unit is looked up without regard to spaces, dots, hyphens, carets and asterisks ("N·m" is "N m",
 * "kg m²" is "kg m2"), first as written and then without regard to capitals, except a leading m or M, where
 * capitals make a million of a thousandth.
 */
export const dimensions = {
  voltage: dimension("a voltage", "V", [
    unit("V", 1, ["volt", "volts", "Vac"]),
    unit("kV", 1e3),
    unit("mV", 1e-3),
  ]),
  current: dimension("a current", "A", [
    unit("A", 1, ["amp", "amps", "ampere", "amperes"]),
    unit("kA", 1e3),
    unit("mA", 1e-3),
  ]),
  resistance: dimension("a resistance", "ohm", [
    unit("ohm", 1, ["ohms", "Ω"]),
    unit("mohm", 1e-3, ["mΩ"]),
    unit("kohm", 1e3, ["kΩ"]),
  ]),
  power: dimension("a power", "W", [
    unit("W", 1, ["watt", "watts"]),
    unit("kW", 1e3),
    unit("hp", HORSEPOWER_W, ["horsepower"]),
  ]),
  apparentPower: dimension("a power in volt-amperes", "VA", [unit("VA", 1), unit("kVA", 1e3)]),
  reactivePower: dimension("a reactive power", "var", [unit("var", 1), unit("kvar", 1e3)]),
  capacitance: dimension("a capacitance", "F", [
    unit("uF", 1e-6, ["µF", "mfd", "MFD", "microfarad"]),
    unit("nF", 1e-9),
    unit("F", 1, ["farad"]),
  ]),
  frequency: dimension("a frequency", "Hz", [unit("Hz", 1, ["hertz"])]),
  time: dimension("a time", "s", [
    unit("s", 1, ["sec", "second", "seconds"]),
    unit("ms", 1e-3),
    unit("min", 60, ["minute", "minutes"]),
    unit("h", 3600, ["hr", "hour", "hours"]),
  ]),
  length: dimension("a length", "m", [
    unit("ft", FOOT_M, ["foot", "feet"]),
    unit("m", 1, ["metre", "metres", "meter", "meters"]),
    unit("in", FOOT_M / 12, ["inch", "inches"]),
    unit("yd", 3 * FOOT_M),
    unit("cm", 1e-2),
    unit("mm", 1e-3),
    unit("km", 1e3),
  ]),
  area: dimension("an area", "m2", [
    unit("mm2", 1e-6),
    unit("cm2", 1e-4),
    unit("in2", (FOOT_M / 12) ** 2, ["sq in"]),
    unit("m2", 1),
    unit("kcmil", KCMIL_M2, ["MCM"]),
  ]),
  speed: dimension("a speed", "rpm", [
    unit("rpm", 1, ["r/min", "1/min", "rev/min"]),
    unit("rad/s", RADPS_RPM),
  ]),
  torque: dimension("a torque", "N m", [
    unit("N m", 1),
    unit("lb ft", POUND_FOOT_NM, ["ft lb", "lbf ft", "ft lbf"]),
    unit("lb in", POUND_FOOT_NM / 12, ["in lb", "lbf in", "in lbf"]),
    unit("oz ft", POUND_FOOT_NM / 16, ["ft oz", "ozf ft"]),
    unit("oz in", POUND_FOOT_NM / 192, ["in oz", "ozf in"]),
  ]),
  inertia: dimension("an inertia", "kg m2", [
    unit("kg m2", 1),
    unit("lb ft2", POUND_KG * FOOT_M ** 2, ["lbm ft2"]),
    unit("lb in2", POUND_KG * (FOOT_M / 12) ** 2),
    unit("kg cm2", 1e-4),
  ]),
  temperature: dimension("a temperature", "degC", [
    unit("degC", 1, ["C", "celsius"]),
    unit("degF", 5 / 9, ["F", "fahrenheit"], -160 / 9),
    unit("K", 1, ["kelvin"], -273.15),
  ]),
  pressure: dimension("a pressure", "Pa", [
    unit("psi", PSI_PA, ["psig"]),
    unit("bar", 1e5),
    unit("kPa", 1e3),
    unit("Pa", 1),
  ]),
  volume: dimension("a volume", "m3", [
    unit("gal", GALLON_M3, ["gallon", "gallons", "US gal"]),
    unit("l", 1e-3, ["litre", "litres", "liter", "liters"]),
    unit("ft3", FOOT_M ** 3, ["cu ft"]),
    unit("m3", 1),
  ]),
  flow: dimension("a flow", "m3/s", [
    unit("cfm", FOOT_M ** 3 / 60, ["scfm", "ft3/min"]),
    unit("l/min", 1e-3 / 60),
    unit("l/s", 1e-3),
    unit("m3/h", 1 / 3600),
    unit("m3/s", 1),
  ]),
  ratio: dimension("a percentage", "", [unit("%", 1e-2, ["percent"])]),
} satisfies Record<string, Dimension>;

export type DimensionName = keyof typeof dimensions;

/** "V, kV or mV" */
export function unitNames(dimension: Dimension): string {
  const names = dimension.units.map((u) => u.name);
  return names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} or ${names.at(-1)}`;
}

/** The unit of that spelling, or undefined. */
export function unitNamed(dimension: Dimension, text: string): Unit | undefined {
  const spelling = plain(text);
  return dimension.exact.get(spelling) ?? dimension.loose.get(anyCase(spelling));
}
