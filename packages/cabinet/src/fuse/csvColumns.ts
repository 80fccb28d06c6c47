import { dimensions, unitNamed } from "../units.ts";

/** What a column holds, and the factor from its numbers to A or s. */
export interface Column {
  readonly holds: "current" | "time";
  readonly scale: number;
}

/** Words in a header that mean multiples of the rating, and percent of it. */
const MULTIPLES = ["x", "×", "xin", "×in", "multiple", "multiples", "rating", "rated", "pu"];
/** The rated current's own symbol: "In", "I/In", "i/in"; not the word "in". */
const RATED_SYMBOL = /\bI[nr]\b|\bi\s*\/\s*i[nr]\b/;
const PERCENT = ["%", "percent"];
const CURRENT = ["current", "currents", "i"];
const TIME = ["time", "times", "t"];

/**
 * What a header says of its column: "Current (A)", "I/In", "multiple of rating", "time_s", "Melting time [ms]".
 *
 * The unit is read from brackets when there are any, from any word otherwise; amperes and seconds when it is silent.
 *
 * @param header text of the cell
 * @param rating_A for multiples of the rating
 * @returns the column; null when it names neither current nor time; "unit" when its brackets hold no known unit
 */
export function columnOf(header: string, rating_A: number): Column | "unit" | null {
  const bracketed = /[([]([^)\]]*)[)\]]/.exec(header)?.[1];
  const words = wordsOf(header).map((word) => word.toLowerCase());
  const unit = unitOf(bracketed ?? header, rating_A);
  const named = CURRENT.some((word) => words.includes(word))
    ? "current"
    : TIME.some((word) => words.includes(word))
      ? "time"
      : null;
  if (named === null) return unit;
  if (unit === null) return bracketed === undefined ? { holds: named, scale: 1 } : "unit";
  return unit.holds === named ? unit : "unit";
}

/** The unit written behind a number: "30 A", "2x", "150 %", "250 ms"; null when it is none. */
export function unitBehind(text: string, rating_A: number): Column | null {
  return unitOf(text, rating_A);
}

function wordsOf(text: string): string[] {
  return text
    .trim()
    .split(/[^\p{L}\p{N}%×]+/u)
    .filter((word) => word !== "");
}

/** Units that stand as a word of their own. */
function unitOf(text: string, rating_A: number): Column | null {
  const words = wordsOf(text);
  const low = words.map((word) => word.toLowerCase());
  if (low.some((word) => PERCENT.includes(word))) return { holds: "current", scale: rating_A / 100 };
  if (RATED_SYMBOL.test(text) || low.some((word) => MULTIPLES.includes(word)))
    return { holds: "current", scale: rating_A };
  for (const holds of ["current", "time"] as const) {
    for (const word of words) {
      const unit = unitNamed(dimensions[holds], word) ?? unitNamed(dimensions[holds], word.replace(/s$/, ""));
      if (unit !== undefined) return { holds, scale: unit.scale };
    }
  }
  return null;
}
