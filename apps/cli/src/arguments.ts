import type { Command, CommanderError } from "commander";
import type { Io } from "./io.ts";
import { exit } from "./status.ts";
import { plain } from "./text/plain.ts";
import { wrap } from "./text/wrap.ts";

/** What the command that was meant accepts: its options, or the names of the commands. */
function accepted(startgap: Command, argv: readonly string[]): string {
  const meant = startgap.commands.find((c) => c.name() === argv[0]);
  if (meant === undefined) return `commands: ${startgap.commands.map((c) => c.name()).join(", ")}`;
  const names = meant.options.map((o) => o.long ?? o.flags);
  return `usage: startgap ${meant.name()} ${meant.usage()}; options: ${[...names, "--help"].join(", ")}`;
}

/** "error: unknown option '--dely'\n(Did you mean --delay?)" as one sentence. */
const sentence = (message: string): string =>
  plain(message)
    .replace(/^error: /, "")
    .replace(/\s*\((Did you mean [^)]*)\)$/, (_all, hint: string) => `; ${hint.replace("Did", "did")}`);

/** Help and version end well; anything else is a wrong argument: what was found, the nearest, what is accepted. */
export function argumentTrouble(
  error: CommanderError,
  startgap: Command,
  argv: readonly string[],
  io: Io,
): number {
  if (error.exitCode === 0) return exit.passed;
  if (error.code === "commander.help") return exit.badInput;
  const accepts = wrap(`Accepted ${accepted(startgap, argv)}`, io.err.width, 2);
  io.err.write(`startgap: ${sentence(error.message)}\n${accepts.map((line) => `  ${line}\n`).join("")}`);
  return exit.badInput;
}
