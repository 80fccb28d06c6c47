/**
 * Numbers as a person would say them: never more digits than a clamp meter and a tape measure deserve.
 * Machines get them unrounded through `--json`.
 */

const NOT_KNOWN = "-";

const known = (value: number | null): value is number => value !== null && Number.isFinite(value);

/** Significant digits without an exponent for anything a cabinet can hold: 0.0123, 12, 1230. */
export function significant(value: number, digits: number): string {
  if (value === 0) return "0";
  const rounded = Number(value.toPrecision(digits));
  const size = Math.abs(rounded);
  if (size >= 1e9 || size < 1e-6) return rounded.toExponential(Math.max(0, digits - 1));
  const decimals = Math.max(0, digits - 1 - Math.floor(Math.log10(size)));
  return rounded.toFixed(decimals);
}

const with_ = (unit: string, value: number | null, text: (v: number) => string): string =>
  known(value) ? `${text(value)} ${unit}` : NOT_KNOWN;

/** Whole volts, one decimal below 60 V, where a coil's volt matters. */
export const volts = (value: number | null): string =>
  with_("V", value, (v) => v.toFixed(Math.abs(v) < 60 ? 1 : 0));

/** Whole amperes, one decimal below 20 A. */
export const amperes = (value: number | null): string =>
  with_("A", value, (v) => v.toFixed(Math.abs(v) < 20 ? 1 : 0));

/** Two significant digits; minutes from 10 min on, hours from 3 h on. */
export const seconds = (value: number | null): string => {
  if (!known(value) || Math.abs(value) < 600) return with_("s", value, (v) => significant(v, 2));
  return Math.abs(value) < 10_800 ? `${significant(value / 60, 2)} min` : `${significant(value / 3600, 2)} h`;
};

/** A rating as it is printed on a plate: no trailing zeros. */
export const rated = (value: number): string => `${Number(value.toPrecision(4))}`;

/** A dial setting as it is set: no trailing zeros. */
export const setting = (value: number | null): string =>
  with_("s", value, (v) => `${Number(v.toPrecision(3))}`);

/** A fraction in whole percent; below 10 % with two digits. */
export const percent = (value: number | null): string =>
  with_("%", value, (v) => (Math.abs(v) < 0.1 ? significant(100 * v, 2) : (100 * v).toFixed(0)));

/** "1 motor", "2 motors" */
export const count = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;
