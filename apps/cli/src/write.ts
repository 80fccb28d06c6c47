import {
  chmodSync,
  closeSync,
  fsyncSync,
  openSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { basename, dirname, join } from "node:path";
import type { OutputFile } from "./io.ts";

/** A file under a passing name beside its goal, so that a rename cannot leave half of it behind. */
interface Staged {
  readonly temporary: string;
  readonly goal: string;
}

/** Through links to the file itself: a link stays a link. */
function goalOf(path: string): string {
  return statSync(path, { throwIfNoEntry: false }) === undefined ? path : realpathSync(path);
}

const isRegular = (path: string): boolean => statSync(path, { throwIfNoEntry: false })?.isFile() ?? true;

function stage(file: OutputFile): Staged {
  const goal = goalOf(file.path);
  const temporary = join(dirname(goal), `.${basename(goal).slice(0, 100)}.${process.pid}.part`);
  const handle = openSync(temporary, "wx");
  try {
    writeFileSync(handle, file.text);
    fsyncSync(handle);
    const old = statSync(goal, { throwIfNoEntry: false });
    if (old !== undefined) chmodSync(temporary, old.mode & 0o777);
  } catch (error) {
    rmSync(temporary, { force: true });
    throw error;
  } finally {
    closeSync(handle);
  }
  return { temporary, goal };
}

/**
 * Writes every file whole, or none.
 *
 * Each is first written in full beside its goal; only when all are complete are they renamed into place, which the
 * system does at a stroke. A goal that is no regular file (a pipe, a null device) is written to as it is.
 * Limitation: should one of several renames fail, those before it have happened.
 */
export function writeAll(files: readonly OutputFile[]): void {
  const staged: Staged[] = [];
  try {
    for (const file of files.filter((f) => isRegular(f.path))) staged.push(stage(file));
    for (const { temporary, goal } of staged) renameSync(temporary, goal);
  } finally {
    for (const { temporary } of staged) rmSync(temporary, { force: true });
  }
  for (const file of files.filter((f) => !isRegular(f.path))) writeFileSync(file.path, file.text);
}
