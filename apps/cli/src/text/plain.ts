/** Control characters out, so that a name in a file cannot steer a terminal; tabs and line ends become blanks. */
export function plain(text: string): string {
  return text.replace(/\s/g, " ").replace(/\p{Cc}|\p{Cf}/gu, "");
}

/** Characters as a reader counts them, near enough for Latin, Greek and Cyrillic letters. */
export const lengthOf = (text: string): number => [...text].length;

export const pad = (text: string, width: number): string =>
  text + " ".repeat(Math.max(0, width - lengthOf(text)));

/** Lines as the text of a stream: each ended, the last as well. */
export const lines = (all: readonly string[]): string => all.map((line) => `${line}\n`).join("");
