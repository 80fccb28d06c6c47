import { dirname, join } from "node:path";
import { cabinetSchema, type Example, examples, type Issue, writeCabinet } from "@startgap/cabinet";
import type { Io, OutputFile } from "../io.ts";
import { refuse } from "../prepare.ts";
import { exit } from "../status.ts";
import { lines, pad } from "../text/plain.ts";
import { labelled } from "../text/wrap.ts";

export interface NewFlags {
  readonly example?: string;
  readonly list?: boolean;
  readonly force?: boolean;
  readonly schema?: boolean;
}

const SCHEMA = "cabinet.schema.json";

/** What a first reader needs to know, in the one place of a JSON file where words may stand. */
const NOTES = [
  "Every part has a name and says by fedBy what feeds it: read from the supply down, the file is a single-line diagram.",
  'Quantities carry their unit, as "1.5 hp", "12 AWG Cu", "40 ft" or "25 A".',
  'What is known roughly is a range: "95 A +- 10 %" or "3 s .. 5 s".',
  "Leave out what is not known: startgap check --assumptions lists what is taken instead, and from where.",
  "Put nameplates, lengths and fuses of your own in place of these, then check the file. These notes are not used.",
].join(" ");

const quoted = (text: string, more = ""): string => JSON.stringify(text.slice(0, 80)) + more;

/** Why a file cannot be written at a path, as an issue. */
function inTheWay(place: string, path: string, flags: NewFlags, io: Io): Issue[] {
  const there = io.exists(path) && !flags.force ? "a file that is already there; --force replaces it" : null;
  const why = there ?? io.obstacle(path);
  if (why === null) return [];
  return [{ path: place, expected: "a file that can be written", received: quoted(path, `, ${why}`) }];
}

/** What stands in the way of a new file, all at once. */
function issuesOf(file: string | undefined, flags: NewFlags, io: Io): Issue[] {
  const { example, schema } = flags;
  const keys = examples.map((e) => e.key);
  const unknown: Issue[] =
    example === undefined || keys.includes(example)
      ? []
      : [{ path: "--example", expected: `one of ${keys.join(", ")}`, received: quoted(example) }];
  if (file === undefined) {
    const expected = 'the file to write, as "shed.cabinet.json"';
    return [...unknown, { path: "FILE", expected, received: "nothing" }];
  }
  if (file === "-") return unknown;
  const beside = schema ? inTheWay("--schema", join(dirname(file), SCHEMA), flags, io) : [];
  return [...unknown, ...inTheWay("FILE", file, flags, io), ...beside];
}

/** The example with its notes, and where an editor finds the schema. */
function textOf(example: Example, flags: NewFlags): string {
  const { startgap, title, notes, ...rest } = JSON.parse(example.text);
  const pointer = flags.schema ? { $schema: SCHEMA } : {};
  const told = typeof notes === "string" ? `${notes} ${NOTES}` : NOTES;
  return writeCabinet({ ...pointer, startgap, title, notes: told, ...rest });
}

function write(file: string, text: string, flags: NewFlags, io: Io): void {
  const schema: OutputFile[] = flags.schema
    ? [{ path: join(dirname(file), SCHEMA), text: `${JSON.stringify(cabinetSchema, null, 2)}\n` }]
    : [];
  io.writeAll([{ path: file, text }, ...schema]);
  const written = [file, ...schema.map(({ path }) => path)].join(" and ");
  io.out.write(`Wrote ${written}. Put your own nameplates and wire in it, then: startgap check ${file}\n`);
}

/** Every example: its key, and what it is. */
function exampleLines(width: number): string[] {
  const room = Math.max(...examples.map(({ key }) => key.length)) + 2;
  return examples.flatMap(({ key, title }) => labelled(pad(key, room), title, width));
}

/** `startgap new FILE`: a cabinet file to start from, never over one that is there. */
export function newCommand(file: string | undefined, flags: NewFlags, io: Io): number {
  if (flags.list) {
    io.out.write(lines(exampleLines(io.out.width)));
    return exit.passed;
  }
  const issues = issuesOf(file, flags, io);
  if (issues.length > 0 || file === undefined) return refuse(issues, io);
  const text = textOf(examples.find((e) => e.key === flags.example) ?? examples[0], flags);
  if (file === "-") io.out.write(text);
  else write(file, text, flags, io);
  return exit.passed;
}
