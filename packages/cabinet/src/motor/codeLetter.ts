import { nearestStandardPower } from "./standardPowers.ts";

/** kVA per hp at locked rotor: from `low` up to but not including `high`. */
export interface KvaPerHp {
  readonly low: number;
  readonly high: number;
}

/**
 * Lower edges of the locked-rotor code letters, kVA/hp; each letter runs up to the next one's edge.
 * There is no I, O or Q; V has no upper edge.
 * Source: NEMA MG 1 10.37.2; NEC Table 430.7(B).
 */
const LOWER_EDGES: readonly (readonly [string, number])[] = [
  ["A", 0],
  ["B", 3.15],
  ["C", 3.55],
  ["D", 4],
  ["E", 4.5],
  ["F", 5],
  ["G", 5.6],
  ["H", 6.3],
  ["J", 7.1],
  ["K", 8],
  ["L", 9],
  ["M", 10],
  ["N", 11.2],
  ["P", 12.5],
  ["R", 14],
  ["S", 16],
  ["T", 18],
  ["U", 20],
  ["V", 22.4],
];

export const CODE_LETTERS: readonly string[] = LOWER_EDGES.map(([letter]) => letter);

/**
 * Locked-rotor volt-amperes per horsepower that a code letter stands for.
 *
 * @param letter one of `CODE_LETTERS`, capital or not
 * @returns half-open range in kVA/hp (V: up to Infinity), or undefined for a letter that is not one
 *
 * Source: NEMA MG 1 10.37.2. Checked by tests/published/motors-locked-rotor-tables.
 */
export function codeLetterRange(letter: string): KvaPerHp | undefined {
  const k = CODE_LETTERS.indexOf(letter.trim().toUpperCase());
  if (k < 0) return undefined;
  return { low: LOWER_EDGES[k][1], high: LOWER_EDGES[k + 1]?.[1] ?? Infinity };
}

/**
 * The code letter that a locked-rotor figure falls under.
 *
 * @param kvaPerHp 0 or more
 * Source: NEMA MG 1 10.37.2.
 */
export function codeLetterOf(kvaPerHp: number): string {
  if (!(kvaPerHp >= 0)) throw new RangeError(`invalid kvaPerHp: ${kvaPerHp} (expected 0 or more)`);
  return LOWER_EDGES.reduce((letter, [next, low]) => (kvaPerHp >= low ? next : letter), "A");
}

/**
 * The figure used for a letter when nothing nearer is known: the middle of its range. A and V, which are
 * open to one side, give 2.8 and 24: one ordinary step from their known edge.
 */
export function middleOf({ low, high }: KvaPerHp): number {
  if (low === 0) return 2.8;
  return Number.isFinite(high) ? (low + high) / 2 : 24;
}

/**
 * Usual letters of single-phase motors by horsepower.
 * Source: the table of usual code letters beside NEMA MG 1 10.37.2 as electrical handbooks reprint it,
 * 1/2 to 5 hp; below and above that the trend carried on, common practice, no source.
 */
const USUAL: readonly (readonly [number, string])[] = [
  [1 / 3, "M"],
  [1 / 2, "L"],
  [1, "K"],
  [2, "J"],
  [3, "H"],
  [Infinity, "G"],
];

/** Usual code letter of a single-phase motor of that rating: L at 1/2 hp down to G at 5 hp. */
export function usualCodeLetter(power_hp: number): string {
  const standard = nearestStandardPower(power_hp);
  return USUAL.find(([most]) => standard <= most)![1];
}
