/** Where text goes, and what may be written there. */
export interface Screen {
  readonly write: (text: string) => void;
  /** True when a person watches: progress is shown and colours are allowed. */
  readonly terminal: boolean;
  readonly colour: boolean;
  /** Characters to a line. */
  readonly width: number;
}

export interface OutputFile {
  readonly path: string;
  readonly text: string | Uint8Array;
}

/** A page as PDF. Rejects when it could not be printed. */
export type Printer = (html: string) => Promise<Uint8Array>;

/** Everything the command needs of the world, so that a test can stand in for it. */
export interface Io {
  readonly out: Screen;
  readonly err: Screen;
  /** Text of a file, of standard input for "-". Rejects with the system's own error. */
  readonly read: (path: string) => Promise<string>;
  readonly exists: (path: string) => boolean;
  /** Why a file could not be written there, or null. Asked before the work, so that no work is in vain. */
  readonly obstacle: (path: string) => string | null;
  /** Writes all files or none; each appears whole or not at all. */
  readonly writeAll: (files: readonly OutputFile[]) => void;
  readonly makeFolder: (path: string) => void;
  /** An empty document to draw in; costs 0.4 s the first time. */
  readonly document: () => Promise<Document>;
  /** What prints pages on this machine, or why nothing does. */
  readonly printer: () => Printer | string;
  /** This day where the reader is, as "2026-03-04". */
  readonly today: () => string;
  /** Milliseconds since some moment: only to tell short work from long. */
  readonly clock_ms: () => number;
  /** Takes an unexpected error whole, for whoever mends the program: NODE_DEBUG=startgap shows it. */
  readonly trace: (error: unknown) => void;
}
