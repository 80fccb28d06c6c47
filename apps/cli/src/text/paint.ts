import type { Verdict } from "@startgap/study";

/** The word carries the verdict; colour only repeats it. */
export const verdictWord: Readonly<Record<Verdict, string>> = {
  fail: "FAIL",
  caution: "CAUTION",
  pass: "PASS",
};

/** Select Graphic Rendition codes, ECMA-48 section 8.3.117: bold, dim, red, green, yellow. */
const codes = { usual: "", bold: "1", dim: "2", fail: "1;31", pass: "32", caution: "33" } as const;

export type Style = keyof typeof codes;
export type Paint = (style: Style, text: string) => string;

/** Wraps text in colour codes, or leaves it as it is. */
export function painter(colour: boolean): Paint {
  return (style, text) =>
    colour && text !== "" && style !== "usual" ? `\u001b[${codes[style]}m${text}\u001b[0m` : text;
}
