import { nodeIo } from "./node.ts";
import { run } from "./run.ts";
import { exit } from "./status.ts";

/** 128 and the number of the signal, as shells count. */
const INTERRUPTED = 130;

process.once("SIGINT", () => process.exit(INTERRUPTED));
for (const stream of [process.stdout, process.stderr]) {
  stream.on("error", (error: NodeJS.ErrnoException) => {
    // Whoever read has gone (as `| head`): nothing is left to say, and nobody to say it to.
    process.exit(error.code === "EPIPE" ? exit.passed : exit.unfinished);
  });
}

process.exitCode = await run(process.argv.slice(2), nodeIo());
