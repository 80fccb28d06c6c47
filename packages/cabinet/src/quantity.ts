import { leadingNumber } from "./text/number.ts";
import { type Dimension, type Unit, unitNamed } from "./units.ts";

/** What is known of one quantity, in SI. All three are equal when it was stated exactly. */
export interface Range {
  readonly nominal: number;
  readonly low: number;
  readonly high: number;
}

/** Why a text is not a quantity: nothing but a number, a unit that is not known, or no quantity at all. */
export type Flaw = {
  readonly flaw: "no unit" | "unknown unit" | "not a quantity" | "upside down";
  readonly unit?: string;
};

interface Term {
  readonly value: number;
  readonly unit: string;
}

/**
 * Reads a quantity as people write it: `"1.5 hp"`, `"95 A +- 10 %"`, `"95 ± 5 A"`, `"3 s .. 5 s"`, `"1/4 hp"`.
 *
 * After `+-` a percentage is always of the value itself, also where the value is a percentage.
 *
 * @param text      at most 80 characters
 * @param dimension what it measures; null for a plain number without a unit
 * @returns the range in SI, nominal in the middle, or why it is none
 */
export function quantityOf(text: string, dimension: Dimension | null): Range | Flaw {
  const trimmed = text.trim();
  const spread = /\s*(?:\+-|\+\/-|±)\s*/.exec(trimmed);
  if (spread !== null) {
    const middle = trimmed.slice(0, spread.index);
    return around(middle, trimmed.slice(spread.index + spread[0].length), dimension);
  }
  const dots = /\s*(?:\.\.\.?|…)\s*/.exec(trimmed);
  if (dots !== null) {
    return between(trimmed.slice(0, dots.index), trimmed.slice(dots.index + dots[0].length), dimension);
  }
  const exact = siOf(term(trimmed), dimension);
  return typeof exact === "number" ? { nominal: exact, low: exact, high: exact } : exact;
}

/** "3 .. 5 s" and "3 s .. 5 s". */
function between(first: string, second: string, dimension: Dimension | null): Range | Flaw {
  const from = term(first);
  const to = term(second);
  const high = siOf(to, dimension);
  if (typeof high !== "number") return high;
  const low = siOf(
    from !== null && from.unit === "" && to !== null ? { ...from, unit: to.unit } : from,
    dimension,
  );
  if (typeof low !== "number") return low;
  if (low > high) return { flaw: "upside down" };
  return { nominal: (low + high) / 2, low, high };
}

/** "95 A +- 10 %", "95 A +- 5 A" and "95 +- 5 A". */
function around(first: string, second: string, dimension: Dimension | null): Range | Flaw {
  const middle = term(first);
  const by = term(second);
  if (middle === null || by === null || by.value < 0) return { flaw: "not a quantity" };
  const relative = by.unit === "%";
  const nominal = siOf(middle.unit === "" && !relative ? { ...middle, unit: by.unit } : middle, dimension);
  if (typeof nominal !== "number") return nominal;
  if (relative && isAffine(dimension)) return { flaw: "not a quantity" };
  const half = relative ? (Math.abs(nominal) * by.value) / 100 : halfWidth(by, dimension);
  if (typeof half !== "number") return half;
  return { nominal, low: nominal - half, high: nominal + half };
}

/** A difference: of a unit with an offset only the scale counts. */
function halfWidth(by: Term, dimension: Dimension | null): number | Flaw {
  if (dimension === null) return by.unit === "" ? by.value : { flaw: "unknown unit", unit: by.unit };
  const unit = unitNamed(dimension, by.unit);
  return unit === undefined ? noUnit(by.unit) : by.value * unit.scale;
}

const isAffine = (dimension: Dimension | null): boolean =>
  dimension?.units.some((unit) => unit.offset !== 0) ?? false;

function term(text: string): Term | null {
  const number = leadingNumber(text);
  return number === null ? null : { value: number.value, unit: text.slice(number.length).trim() };
}

function siOf(term: Term | null, dimension: Dimension | null): number | Flaw {
  if (term === null) return { flaw: "not a quantity" };
  if (dimension === null) return term.unit === "" ? term.value : { flaw: "unknown unit", unit: term.unit };
  const unit = unitNamed(dimension, term.unit);
  return unit === undefined ? noUnit(term.unit) : toSi(term.value, unit);
}

const noUnit = (unit: string): Flaw => (unit === "" ? { flaw: "no unit" } : { flaw: "unknown unit", unit });

/** A part of a thousand or a million is divided, not multiplied, so that 180 uF is 0.00018 F to the last digit. */
function toSi(value: number, unit: Unit): number {
  const per = Math.round(1 / unit.scale);
  const isPart = unit.scale < 1 && Math.abs(per * unit.scale - 1) < 1e-12;
  return unit.offset + (isPart ? value / per : value * unit.scale);
}

/** True when a quantity was read. */
export const isRange = (read: Range | Flaw): read is Range => !("flaw" in read);
