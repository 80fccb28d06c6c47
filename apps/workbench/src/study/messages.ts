import type { Cabinet, Example, Issue } from "@startgap/cabinet";
import type { CheckReport, DelayMap, Story } from "@startgap/study";

/** What the page asks of a worker. */
export type Question =
  | { readonly ask: "introduce" }
  /** Run the cases of a cabinet file with the second start after `delay_s`; null: as the file says. */
  | { readonly ask: "run"; readonly text: string; readonly delay_s: number | null }
  /** Map the delays of a cabinet file. */
  | { readonly ask: "map"; readonly text: string };

export type Answer =
  | { readonly say: "introduced"; readonly schema: unknown; readonly examples: readonly Example[] }
  | Ran
  | { readonly say: "mapped"; readonly text: string; readonly map: DelayMap | null }
  | { readonly say: "refused"; readonly text: string; readonly issues: readonly Issue[] }
  | { readonly say: "failed"; readonly sentence: string };

export interface Ran {
  readonly say: "ran";
  readonly text: string;
  /** Comes along when it was read anew. */
  readonly cabinet: Cabinet | null;
  readonly report: CheckReport;
  /** How many of the first stories are those of the answer before: they do not come along. */
  readonly same: number;
  readonly stories: readonly Story[];
}

/** Every answer carries the number of its question. */
export interface Asked {
  readonly number: number;
  readonly question: Question;
}

export interface Answered {
  readonly number: number;
  readonly answer: Answer;
}
