import type { Cabinet } from "@startgap/cabinet";
import type { Besides, Check, WaveOptions, WaveStudy } from "@startgap/study";

/** Delay that was tried without writing it into the file; absent: as the file says. */
interface Tried {
  readonly delay_s?: number;
}

/** What the page asks of a worker for longer work. */
export type LaterQuestion =
  /** The whole check with its map, and what is told beside it: what a report is made of. */
  | { readonly ask: "everything"; readonly cabinet: Cabinet; readonly options: Tried }
  /** Every curve of every case as a table. */
  | { readonly ask: "table"; readonly cabinet: Cabinet; readonly options: Tried }
  /** A stretch of one case cycle by cycle. */
  | { readonly ask: "wave"; readonly cabinet: Cabinet; readonly options: WaveOptions };

export type LaterAnswer =
  | { readonly say: "everything"; readonly check: Check; readonly beside: Besides }
  | { readonly say: "table"; readonly text: string }
  | { readonly say: "wave"; readonly study: WaveStudy }
  | { readonly say: "failed"; readonly sentence: string };

/** What comes from the worker: how far it is, 0 to 1, and at last the answer. */
export type Told = { readonly progress: number } | { readonly answer: LaterAnswer };
