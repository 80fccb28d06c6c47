/**
 * Markup that cannot carry what it is given: everything put into it is words, unless it is markup made here.
 */

/** A piece of HTML, made by `html` or `trusted` alone. */
export interface Markup {
  readonly markup: string;
}

/** What may stand in a template: words (escaped), markup (as it is), lists of both, null for nothing. */
export type Inside = string | number | Markup | null | readonly Inside[];

const entities: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/** Words that stay words between tags and inside quoted attributes, character for character. */
export const escaped = (text: string): string => text.replace(/[&<>"']/g, (character) => entities[character]);

/** Control characters, unpaired surrogates and noncharacters: no page can show them. */
const unwritable = /[\p{Cc}\p{Cs}\p{Noncharacter_Code_Point}]/gu;

/** Marks that turn the reading direction of whatever follows, also outside the words that hold them. */
const turning = /\p{Bidi_Control}/gu;

/** Words as a reader can see them: what cannot be shown becomes a blank, what would disturb its neighbours goes. */
export const readable = (text: string): string => text.replace(unwritable, " ").replace(turning, "");

/** Markup that was made elsewhere and escaped there. */
export const trusted = (markup: string): Markup => ({ markup });

function inside(value: Inside): string {
  if (value === null) return "";
  if (typeof value === "object") return "markup" in value ? value.markup : value.map(inside).join("");
  return escaped(readable(String(value)));
}

/** A template whose values are escaped; attributes must stand in quotes. */
export function html(strings: TemplateStringsArray, ...values: readonly Inside[]): Markup {
  return trusted(strings.map((piece, i) => (i === 0 ? "" : inside(values[i - 1])) + piece).join(""));
}
