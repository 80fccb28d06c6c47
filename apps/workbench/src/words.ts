import type { Reading } from "@startgap/figures";
import type { CaseName, Quantity, Verdict } from "@startgap/study";

/** A delay as it is set: to the hundredth, no zeros behind. */
export const seconds = (delay_s: number): string => `${Number(delay_s.toFixed(2))} s`;

/** Keeps a number and its unit on one line. */
export const unbroken = (words: string): string =>
  words.replace(/(\d) (?=(?:%|V|A|s|ms|rpm|W|VA|kVA|Hz)(?:\W|$))/g, "$1\u00a0");

export const caseTitle: Readonly<Record<CaseName, string>> = {
  one: "First motor alone",
  together: "All at once",
  staggered: "Held back",
};

export const verdictWord: Readonly<Record<Verdict, string>> = {
  pass: "Passes",
  caution: "Watch",
  fail: "Fails",
};

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

export const quantityWord: Readonly<Record<Quantity, string>> = {
  voltage: "voltage at",
  current: "current through",
  speed: "speed of",
  "melt fraction": "melting of",
  "coil voltage": "coil voltage of",
};

/** Two digits of a current, three of a speed, whole volts: no more than the inputs deserve. */
export function valueWord({ value, quantity, nominal_V }: Reading): string {
  if (value === null) return "–";
  switch (quantity) {
    case "voltage":
    case "coil voltage": {
      const share = nominal_V === null ? "" : ` (${Math.round((100 * value) / nominal_V)}\u00a0%)`;
      return `${value < 50 ? Number(value.toFixed(1)) : Math.round(value)}\u00a0V${share}`;
    }
    case "current":
      return `${Number(value.toPrecision(2))}\u00a0A`;
    case "speed":
      return `${Number(value.toPrecision(3))}\u00a0rpm`;
    case "melt fraction":
      return `${Math.min(100, Math.round(100 * value))}\u00a0%`;
  }
}
