/** Numbers as words, in one place: with their unit and never with more digits than a figure deserves. */

/** No-break space between a number and its unit. */
export const space = "\u00a0";
const minus = "\u2212";

/**
 * A number rounded to so many significant digits, written out in full.
 *
 * @param digits  1 to 15
 */
export function significant(value: number, digits: number): string {
  if (!Number.isFinite(value)) return "no value";
  if (value === 0) return "0";
  const rounded = Number(value.toPrecision(digits));
  const decimals = Math.max(0, digits - 1 - Math.floor(Math.log10(Math.abs(rounded))));
  return withMinus(rounded.toFixed(Math.min(decimals, 12)));
}

function withMinus(text: string): string {
  return text.startsWith("-") ? minus + text.slice(1) : text;
}

/** Whole volts from 10 V up, else tenths: voltages are the best known of a start's figures. */
export function volts(value_V: number): string {
  const text = value_V.toFixed(Math.abs(value_V) >= 9.95 ? 0 : 1);
  return `${withMinus(Number(text) === 0 ? "0" : text)}${space}V`;
}

/** Two digits: a starting current is known to a tenth at best. */
export function amperes(value_A: number): string {
  return `${significant(value_A, 2)}${space}A`;
}

export function newtonMetres(value_Nm: number): string {
  return `${significant(value_Nm, 2)}${space}N${space}m`;
}

export function speed(value_rpm: number): string {
  return `${significant(value_rpm, 3)}${space}rpm`;
}

/** A length of time that was computed: two digits; minutes and hours from 100 s up. */
export function duration(value_s: number): string {
  if (value_s >= 5940) return `${significant(value_s / 3600, 2)}${space}h`;
  if (value_s >= 99.5) return `${significant(value_s / 60, 2)}${space}min`;
  return `${significant(value_s, 2)}${space}s`;
}

/** A time that somebody sets on a dial: as it stands, to the hundredth, never rounded further. */
export function setting(value_s: number): string {
  return `${withMinus(String(Number(value_s.toFixed(2))))}${space}s`;
}

/** A fraction in whole percent. */
export function percent(fraction: number): string {
  const whole = Math.round(fraction * 100);
  const text = whole === 0 && fraction > 0 ? "under 1" : withMinus(String(whole));
  return `${text}${space}%`;
}

/** How far a fuse is to melting: 100 % is only said of one that melted. */
export function meltPercent(fraction: number): string {
  return percent(fraction < 1 ? Math.min(fraction, 0.99) : 1);
}

/**
 * Words at the ticks of an axis: all with the decimals that their spacing needs, thousands set apart.
 *
 * @param ticks  ascending, evenly spaced
 */
export function tickTexts(ticks: readonly number[]): string[] {
  const step = ticks.length > 1 ? ticks[1] - ticks[0] : 1;
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  return ticks.map((tick) => withMinus(thousands(tick.toFixed(decimals))));
}

/** Words at the ticks of a logarithmic axis: powers of ten and their multiples, written out. */
export function logTickText(tick: number): string {
  return thousands(String(Number(tick.toPrecision(3))));
}

function thousands(text: string): string {
  const [whole, decimals] = text.split(".");
  const grouped = whole.replace(/^-?\d{5,}$/, (digits) => digits.replace(/\B(?=(\d{3})+$)/g, "\u202f"));
  return decimals === undefined ? grouped : `${grouped}.${decimals}`;
}
