/** Names that somebody else chose, in any script, set into sentences of ours. */

/** Characters that cannot be drawn, or that would reorder the words around them. */
const unprintable = /[\p{Cc}\p{Cs}\u202a-\u202e\u2066-\u2069\ufffe\uffff]/gu;
const rightToLeft = /[\p{Script=Arabic}\p{Script=Hebrew}\p{Script=Syriac}\p{Script=Thaana}\p{Script=Nko}]/u;

/** A name without what cannot be drawn. */
export function printable(name: string): string {
  return name.replace(unprintable, " ").trim();
}

/** A name that keeps its own direction and leaves the words around it theirs. */
export function isolated(name: string): string {
  const words = printable(name);
  return rightToLeft.test(words) ? `\u2068${words}\u2069` : words;
}
