import { CommanderError } from "commander";
import { argumentTrouble } from "./arguments.ts";
import type { Io } from "./io.ts";
import { isSystemError, reasonOf } from "./node.ts";
import { program } from "./program.ts";
import { exit } from "./status.ts";
import { plain } from "./text/plain.ts";

/**
 * The whole command: arguments in, text and files out through `io`, exit status back.
 *
 * @param argv what stands after the command's own name
 * @returns 0 nothing fails, 1 a finding fails, 2 bad input, 3 the work could not be finished
 */
export async function run(argv: readonly string[], io: Io): Promise<number> {
  let status: number = exit.passed;
  const startgap = program(io, (value) => {
    status = value;
  });
  try {
    await startgap.parseAsync(argv, { from: "user" });
    return status;
  } catch (error) {
    if (error instanceof CommanderError) return argumentTrouble(error, startgap, argv, io);
    io.trace(error);
    const whose = isSystemError(error) ? "" : " (a fault in startgap, not in what it was given)";
    io.err.write(`startgap: could not finish${whose}: ${plain(reasonOf(error))}\n`);
    return exit.unfinished;
  }
}
