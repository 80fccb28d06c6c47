import { examples, type Issue } from "@startgap/cabinet";
import type { Io } from "../io.ts";
import { refuse } from "../prepare.ts";
import { exit } from "../status.ts";
import { lines } from "../text/plain.ts";
import { table } from "../text/table.ts";

export interface NewFlags {
  readonly example?: string;
  readonly list?: boolean;
  readonly force?: boolean;
}

const keys = (): string => examples.map((example) => example.key).join(", ");

/** What stands in the way of a new file, all at once. */
function issuesOf(file: string | undefined, flags: NewFlags, io: Io): Issue[] {
  const issues: Issue[] = [];
  const { example, force } = flags;
  if (example !== undefined && !examples.some((e) => e.key === example)) {
    issues.push({
      path: "--example",
      expected: `one of ${keys()}`,
      received: JSON.stringify(example.slice(0, 80)),
    });
  }
  if (file === undefined) {
    issues.push({ path: "FILE", expected: 'the file to write, as "shed.cabinet.json"', received: "nothing" });
  } else if (file !== "-") {
    const there = io.exists(file) && !force ? "a file that is already there; --force replaces it" : null;
    const why = there ?? io.obstacle(file);
    const received = `${JSON.stringify(file.slice(0, 80))}, ${why}`;
    if (why !== null) issues.push({ path: "FILE", expected: "a file that can be written", received });
  }
  return issues;
}

/** `startgap new FILE`: a cabinet file to start from, never over one that is there. */
export function newCommand(file: string | undefined, flags: NewFlags, io: Io): number {
  if (flags.list) {
    io.out.write(
      lines(table([["key", "what it is"], ...examples.map((e) => [e.key, e.title])], io.out.width)),
    );
    return exit.passed;
  }
  const issues = issuesOf(file, flags, io);
  if (issues.length > 0 || file === undefined) return refuse(issues, io);
  const { text } = examples.find((e) => e.key === flags.example) ?? examples[0];
  if (file === "-") {
    io.out.write(text);
    return exit.passed;
  }
  io.writeAll([{ path: file, text }]);
  io.out.write(`Wrote ${file}. Put your own nameplates and wire in it, then: startgap check ${file}\n`);
  return exit.passed;
}
