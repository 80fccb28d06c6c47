/** Words of an overlay: headings, names of curves, and the sentences for those who cannot see it. */

import type { CaseName, Check, Quantity } from "@startgap/study";
import { amperes, meltPercent, percent, setting, speed, volts } from "./format.ts";
import { type Content, type Curve, caseOrder } from "./overlaySelection.ts";

export const caseWords: Readonly<Record<CaseName, string>> = {
  one: "one",
  together: "together",
  staggered: "staggered",
};

/** Heading of a panel: what, where, and in what unit. The part's name stands apart so that it can be shortened. */
export function headingOf(
  { quantity, part, nominal_V }: Content,
  inVolts: boolean,
): [string, string, string] {
  if (quantity === "voltage")
    return ["Voltage at ", part ?? "", nominal_V === null || inVolts ? ", V" : `, % of ${volts(nominal_V)}`];
  if (quantity === "current") return ["Current through ", part ?? "", ", A"];
  if (quantity === "speed") return ["Speed", "", ", rpm"];
  if (quantity === "melt fraction") return ["How far to melting: ", part ?? "", ", %"];
  return ["Coil voltage at ", part ?? "", ", V"];
}

/** The sample of a curve that decides: the lowest voltage, the highest of all else. */
export function decisiveSample(curve: Curve, quantity: Quantity, from_s: number, to_s: number): number {
  const sign = quantity === "voltage" || quantity === "coil voltage" ? -1 : 1;
  let found = -1;
  for (let i = curve.first; i < curve.values.length; i += 1) {
    if (curve.time_s[i] < from_s || curve.time_s[i] > to_s) continue;
    if (found === -1 || sign * curve.values[i] > sign * curve.values[found]) found = i;
  }
  return found;
}

/** A value in the words of its panel. */
export function valueWords(value: number, { quantity, nominal_V }: Content, inVolts: boolean): string {
  if (quantity === "voltage")
    return nominal_V === null || inVolts ? volts(value) : percent(value / nominal_V);
  if (quantity === "current") return amperes(value);
  if (quantity === "speed") return speed(value);
  return quantity === "melt fraction" ? meltPercent(value) : volts(value);
}

/** One sentence a case: what its curves come to. */
export function overlaySummary(check: Check, contents: readonly Content[], inVolts: boolean): string {
  const sentences = caseOrder.flatMap((name) => {
    const story = check.stories.find((candidate) => candidate.case === name);
    if (story === undefined) return [];
    const facts = contents.flatMap((content) => factOf(content, name, story.duration_s, inVolts));
    const when = name === "staggered" ? `, second start at ${setting(story.delay_s)}` : "";
    return facts.length === 0 ? [] : [`${capital(caseWords[name])}${when}: ${facts.join(", ")}.`];
  });
  return sentences.length === 0 ? "No story to show." : sentences.join(" ").replaceAll("\u00a0", " ");
}

function factOf(content: Content, name: CaseName, to_s: number, inVolts: boolean): string[] {
  const curve = content.curves.find((candidate) => candidate.case === name);
  if (curve === undefined || content.quantity === "speed") return [];
  const sample = decisiveSample(curve, content.quantity, 0, to_s);
  if (sample === -1) return [];
  const value = valueWords(curve.values[sample], content, inVolts);
  if (content.quantity === "voltage") return [`voltage at ${curve.part} falls to ${value}`];
  if (content.quantity === "current") return [`current through ${curve.part} reaches ${value}`];
  return [`${curve.part} comes to ${value} of melting`];
}

const capital = (words: string) => words.charAt(0).toUpperCase() + words.slice(1);
