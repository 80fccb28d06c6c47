import { nearestName } from "../nearest.ts";
import { type Flaw, isRange, quantityOf, type Range } from "../quantity.ts";
import { type Dimension, type DimensionName, dimensions, unitNames } from "../units.ts";
import { type Reading, type Shape, wrong } from "./shape.ts";

const LONGEST_QUANTITY = 80;

/** As much as the published schema can tell of a quantity: it begins with a number, and a unit has a letter in it. */
const NUMBER = "^\\s*[+-]?[\\d.\u00bc\u00bd\u00be]";
const WITH_UNIT = `${NUMBER}.*[A-Za-z%\u00b0\u00b5\u03bc\u2126\u03a9]`;

export interface Limits {
  /** Lowest and highest value that makes sense, as text with its unit; both are allowed. */
  readonly from: string;
  readonly to: string;
  readonly example: string;
  /** When the dimension's own words are not enough: "a fuse rating". */
  readonly a?: string;
}

/** A quantity with a unit, as `"25 A"`, or a range of it; every edge of the range must lie within the limits. */
export function quantity(dimensionName: DimensionName, limits: Limits): Shape<Range> {
  const dimension: Dimension = dimensions[dimensionName];
  const low = limit(limits.from, dimension);
  const high = limit(limits.to, dimension);
  const units = unitNames(dimension);
  const core = `${limits.a ?? dimension.a} from ${limits.from} to ${limits.to}, as "${limits.example}"`;
  const expected = `${core} (in ${units})`;
  const unitExpected = `text with a unit (${units}) after the number: ${core}`;
  const flawed: Partial<Record<Flaw["flaw"], string>> = {
    "no unit": unitExpected,
    "upside down": `the lower value before the higher one: ${core}`,
  };
  return {
    expected,
    read(value, path, reading) {
      if (typeof value === "number") {
        return wrong(reading, path, unitExpected, value);
      }
      if (typeof value !== "string" || value.length > LONGEST_QUANTITY)
        return wrong(reading, path, expected, value);
      const read = quantityOf(value, dimension);
      if (!isRange(read))
        return wrong(reading, path, flawed[read.flaw] ?? expected, value, nearestUnit(read, dimension));
      return within(read, low, high)
        ? keep(read, path, reading, dimension.si)
        : wrong(reading, path, expected, value);
    },
    schema: {
      type: "string",
      minLength: 1,
      maxLength: LONGEST_QUANTITY,
      pattern: WITH_UNIT,
      examples: [limits.example],
    },
  };
}

function limit(text: string, dimension: Dimension | null): number {
  const read = quantityOf(text, dimension);
  if (!isRange(read)) throw new RangeError(`invalid limit: ${text}`);
  return read.nominal;
}

/** A hair of room, so that a limit may be typed in another unit than it was stated in. */
const ROOM = 1e-9;

function within(range: Range, low: number, high: number): boolean {
  return range.low >= low - ROOM * Math.abs(low) && range.high <= high + ROOM * Math.abs(high);
}

function keep(read: Range, path: string, reading: Reading, unit: string): Range {
  const chosen = reading.chosen.get(path);
  if (chosen !== undefined) return { nominal: chosen, low: chosen, high: chosen };
  if (read.low !== read.high) reading.ranges.push({ path, unit, ...read });
  return read;
}

function nearestUnit(flaw: Flaw, dimension: Dimension): string | undefined {
  if (flaw.unit === undefined) return undefined;
  return nearestName(
    flaw.unit,
    dimension.units.flatMap((unit) => [unit.name, ...unit.also]),
  );
}

/** A plain number without a unit, as `0.75`, or a range of it as `"0.7 .. 0.8"`. */
export function number(limits: { from: number; to: number; example: number; a: string }): Shape<Range> {
  const expected = `${limits.a} from ${limits.from} to ${limits.to}, as ${limits.example}`;
  return {
    expected,
    read(value, path, reading) {
      const read = numberRange(value);
      if (read === null || !within(read, limits.from, limits.to))
        return wrong(reading, path, expected, value);
      return keep(read, path, reading, "");
    },
    schema: {
      anyOf: [
        { type: "number", minimum: limits.from, maximum: limits.to },
        { type: "string", minLength: 1, maxLength: LONGEST_QUANTITY, pattern: NUMBER },
      ],
      examples: [limits.example],
    },
  };
}

function numberRange(value: unknown): Range | null {
  if (typeof value === "string" && value.length <= LONGEST_QUANTITY) {
    const read = quantityOf(value, null);
    return isRange(read) ? read : null;
  }
  if (typeof value !== "number" || !Number.isFinite(value) || Object.is(value, -0)) return null;
  return { nominal: value, low: value, high: value };
}

/** One of a few words or numbers, written exactly. */
export function oneOf<const T extends string | number>(a: string, choices: readonly T[]): Shape<T> {
  const shown = choices.map((choice) => JSON.stringify(choice));
  const list = shown.length === 1 ? shown[0] : `${shown.slice(0, -1).join(", ")} or ${shown.at(-1)}`;
  const expected = `${a}: ${list}`;
  const words = choices.filter((choice) => typeof choice === "string");
  return {
    expected,
    read(value, path, reading) {
      const found = choices.find((choice) => choice === value);
      if (found !== undefined) return found;
      return wrong(
        reading,
        path,
        expected,
        value,
        typeof value === "string" ? nearestName(value, words) : undefined,
      );
    },
    schema: { enum: choices },
  };
}

/** A line of text without blanks around it, control characters and marks that turn the reading direction. */
export const text = (a: string, longest: number, example: string): Shape<string> =>
  cleanText(a, longest, example, /\p{Cc}|\p{Bidi_Control}|\p{Cs}|^\s|\s$/u);

/** Text that may run over several lines. */
export const prose = (a: string, longest: number, example: string): Shape<string> =>
  cleanText(a, longest, example, /[^\P{Cc}\n\r\t]|\p{Bidi_Control}|\p{Cs}/u);

function cleanText(a: string, longest: number, example: string, foul: RegExp): Shape<string> {
  const expected = `${a} of 1 to ${longest} characters, as "${example}"`;
  return {
    expected,
    read(value, path, reading) {
      const fine =
        typeof value === "string" && value.length <= longest && /\S/.test(value) && !foul.test(value);
      return fine ? value : wrong(reading, path, expected, value);
    },
    schema: { type: "string", minLength: 1, maxLength: longest, examples: [example] },
  };
}
