/** What a cabinet file states of every part, as lines of words. */

import type { Cabinet, Grade } from "@startgap/cabinet";

export interface Stated {
  /** As the file reader names places: "parts[4].nameplate.power". */
  readonly path: string;
  /** Plain words: "nameplate, full load current". */
  readonly what: string;
  /** As the file writes it. */
  readonly value: string;
  readonly grade: Grade;
}

type FilePart = { readonly [key: string]: unknown };

export const isRecord = (value: unknown): value is FilePart =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** The parts of a cabinet as its file states them; the reader has made sure that they are records. */
export const statedParts = ({ file }: Cabinet): readonly FilePart[] =>
  Array.isArray(file.parts) ? file.parts.filter(isRecord) : [];

/** Keys whose words are not those that they are made of. */
const words: Readonly<Record<string, string>> = {
  is: "",
  r: "resistance",
  x: "reactance",
  xOverR: "X/R",
  csv: "curve as text",
};

/** "fullLoadCurrent" as "full load current". */
const wordsOf = (key: string): string =>
  words[key] ?? key.replace(/([a-z0-9])([A-Z])/g, "$1 $2").toLowerCase();

/** Longest value, in characters, and most points of a list that a table holds; the file itself has the rest. */
const LONGEST = 300;
const MOST = 12;

const short = (text: string): string =>
  text.length <= LONGEST ? text : `${text.slice(0, LONGEST)} ... (${text.length} characters in the file)`;

/** A list of words or of pairs on one line: "120 V, 120 V", "30 A at 600 s; 50 A at 25 s". */
function listWords(list: readonly unknown[]): string {
  const pairs = list.some(Array.isArray);
  const shown = list.slice(0, MOST).map((one) => (Array.isArray(one) ? one.join(" at ") : String(one)));
  const more = list.length > MOST ? [`${list.length - MOST} more in the file`] : [];
  return [...shown, ...more].join(pairs ? "; " : ", ");
}

/** Read off a plate, measured on site, or stated in any other way. */
function gradeOf(path: string): Grade {
  if (path.includes(".nameplate")) return "plate";
  return path.includes(".readings") ? "measured" : "stated";
}

function linesOf(value: unknown, path: string, what: string): Stated[] {
  if (Array.isArray(value) && value.some(isRecord)) {
    return value.flatMap((one, i) => linesOf(one, `${path}[${i}]`, `${what} ${i + 1}`));
  }
  if (!isRecord(value)) {
    const text = Array.isArray(value) ? listWords(value) : String(value);
    return [{ path, what, value: short(text), grade: gradeOf(path) }];
  }
  return Object.entries(value).flatMap(([key, one]) => {
    const inner = [what, wordsOf(key)].filter((words) => words !== "").join(", ");
    return linesOf(one, path === "" ? key : `${path}.${key}`, inner);
  });
}

/** Everything that the file says of one part but what it is, how it is called and where it hangs. */
export function statedOf(part: FilePart, index: number): Stated[] {
  const { name: _name, is: _is, fedBy: _fedBy, leg: _leg, ...rest } = part;
  return linesOf(rest, `parts[${index}]`, "");
}

/** What a part is, and what feeds it: "motor, fed by contactor, second leg". */
export function placeOf({ is, fedBy, leg }: FilePart): string {
  const feeder = fedBy === undefined ? "" : `, fed by ${fedBy}`;
  const which = leg === undefined ? "" : leg === "both" ? ", both legs" : `, ${leg} leg`;
  return `${is}${feeder}${which}`;
}

/** Everything that the file says of the whole: its notes, and whatever else is no part. */
export function statedOfWhole({ file }: Cabinet): Stated[] {
  const { startgap: _version, title: _title, parts: _parts, $schema: _schema, ...rest } = file;
  return linesOf(rest, "", "");
}
