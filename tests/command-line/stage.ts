import type { Io, Printer, Screen } from "../../apps/cli/src/io.ts";
import { run } from "../../apps/cli/src/run.ts";

export interface Stage {
  /** Files by path: what is there before, and what the command wrote. */
  readonly files?: Readonly<Record<string, string>>;
  readonly stdin?: string;
  readonly terminal?: boolean;
  readonly width?: number;
  readonly clock_ms?: () => number;
  /** What prints, or why nothing does. */
  readonly printer?: Printer | string;
}

export interface Performance {
  readonly status: number;
  readonly out: string;
  readonly err: string;
  /** Only what the command wrote. */
  readonly written: Readonly<Record<string, string>>;
}

const noSuchFile = (path: string): Error =>
  Object.assign(new Error(`no ${path}`), { code: "ENOENT", syscall: "open" });

function screen(stage: Stage, keep: (text: string) => void): Screen {
  const terminal = stage.terminal ?? false;
  return { write: keep, terminal, colour: terminal, width: stage.width ?? 80 };
}

/** Runs the command's main function in this process, in a world of a few invented files. */
export async function perform(argv: readonly string[], stage: Stage = {}): Promise<Performance> {
  const shown = { out: "", err: "" };
  const written: Record<string, string> = {};
  const files = (): Record<string, string> => ({ ...stage.files, ...written });
  const io: Io = {
    out: screen(stage, (text) => {
      shown.out += text;
    }),
    err: screen(stage, (text) => {
      shown.err += text;
    }),
    read: async (path) => {
      const text = path === "-" ? stage.stdin : files()[path];
      if (text === undefined) throw noSuchFile(path);
      return text;
    },
    exists: (path) => path in files(),
    obstacle: (path) => (path.startsWith("nowhere/") ? "no such file or folder" : null),
    writeAll: (all) => {
      for (const { path, text } of all)
        written[path] = typeof text === "string" ? text : new TextDecoder().decode(text);
    },
    makeFolder: () => {},
    document: async () => new (await import("jsdom")).JSDOM("").window.document,
    printer: () => stage.printer ?? "there is none here",
    today: () => "2026-03-04",
    clock_ms: stage.clock_ms ?? (() => 0),
    trace: () => {},
  };
  const status = await run(argv, io);
  return { status, ...shown, written };
}
