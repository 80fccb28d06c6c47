import type { CaseName, Verdict } from "@startgap/study";

/** A delay as it is set: to the hundredth, no zeros behind. */
export const seconds = (delay_s: number): string => `${Number(delay_s.toFixed(2))} s`;

export const caseTitle: Readonly<Record<CaseName, string>> = {
  one: "First motor alone",
  together: "Both together",
  staggered: "Second held back",
};

export const verdictWord: Readonly<Record<Verdict, string>> = {
  pass: "Passes",
  caution: "Take care",
  fail: "Fails",
};

export const verdictOrder: readonly Verdict[] = ["fail", "caution", "pass"];

/** "2 fail, 1 to watch, 5 pass": only what there is. */
export function countWords(outcomes: readonly Verdict[]): string {
  const count = (verdict: Verdict): number => outcomes.filter((one) => one === verdict).length;
  const parts = [
    [count("fail"), "fail"],
    [count("caution"), "to watch"],
    [count("pass"), "pass"],
  ].filter(([number]) => (number as number) > 0);
  return parts.map(([number, word]) => `${number} ${word}`).join(", ");
}
