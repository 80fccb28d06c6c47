import type { CaseReport, Verdict } from "@startgap/study";
import { duration, setting, significant, space, volts } from "../format.ts";
import { html, type Markup } from "./markup.ts";

export const notKnown = "\u2013";

/** A case as people would call it. */
export function caseName({ case: name, delay_s }: Pick<CaseReport, "case" | "delay_s">): string {
  if (name === "one") return "First motor alone";
  return name === "together" ? "All at once" : `Held back ${setting(delay_s)}`;
}

const verdictWords: Readonly<Record<Verdict, string>> = { pass: "Pass", caution: "Caution", fail: "Fails" };

/** A verdict as a word whose frame says the same without colour. */
export const verdict = (outcome: Verdict): Markup =>
  html`<span class="verdict ${outcome}">${verdictWords[outcome]}</span>`;

/** A figure of a finding: no more digits than its inputs deserve. */
export function figure(value: number | null, unit: string): string {
  if (value === null || !Number.isFinite(value)) return notKnown;
  if (unit === "s") return duration(value);
  return unit === "" ? significant(value, 2) : `${significant(value, unit === "%" ? 2 : 3)}${space}${unit}`;
}

/** A limit as it was set: no zeros behind. */
export const limit = (value: number | null, unit: string): string =>
  value === null ? notKnown : `${Number(value.toPrecision(4))}${unit === "" ? "" : space + unit}`;

/** Volts of a coil, where a tenth decides. */
export const coilVolts = (value_V: number): string =>
  Math.abs(value_V) < 60 ? `${value_V.toFixed(1)}${space}V` : volts(value_V);

/** "1 value", "2 values" */
export const count = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;

/** "a", "a and b", "a, b and c" */
export const listed = (words: readonly string[]): string =>
  words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words[words.length - 1]}`;
