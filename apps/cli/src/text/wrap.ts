import { lengthOf, plain } from "./plain.ts";

/**
 * Breaks text at blanks into lines of at most `width` characters; a longer word stands alone.
 *
 * @param hang blanks before the second and later lines
 */
export function wrap(text: string, width: number, hang = 0): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of plain(text)
    .split(/ +/)
    .filter((w) => w !== "")) {
    const longer = line === "" ? word : line.trim() === "" ? line + word : `${line} ${word}`;
    if (line.trim() !== "" && lengthOf(longer) > width) {
      lines.push(line);
      line = " ".repeat(hang) + word;
    } else {
      line = longer;
    }
  }
  return line === "" ? lines : [...lines, line];
}

/** Text behind a label of fixed width, wrapped with its later lines under its first. */
export function labelled(label: string, text: string, width: number): string[] {
  const room = Math.max(20, width - lengthOf(label));
  const blank = " ".repeat(lengthOf(label));
  return wrap(text, room).map((line, i) => (i === 0 ? label : blank) + line);
}
