import type { Cabinet, Example, Issue } from "@startgap/cabinet";
import type { Check, DelayMap } from "@startgap/study";
import { type Store, storeOf } from "./store.ts";

/** What undo and redo go back and forth between. */
export interface Snapshot {
  /** The cabinet file with everything that was typed, right or wrong. */
  readonly text: string;
  /** Delay tried where the file has no relay to hold it; null: as the file says. */
  readonly delay_s: number | null;
}

/** The last cabinet that could be run, with its results. */
export interface Shown {
  readonly text: string;
  readonly cabinet: Cabinet;
  readonly check: Check;
}

export interface Session extends Snapshot {
  readonly past: readonly Snapshot[];
  readonly future: readonly Snapshot[];
  /** Where the handle is while it is being moved; null when it rests. */
  readonly moving_s: number | null;
  readonly issues: readonly Issue[];
  /** Why the study could not be finished; null when it was. */
  readonly failure: string | null;
  readonly shown: Shown | null;
  readonly map: { readonly text: string; readonly map: DelayMap | null } | null;
  readonly schema: unknown;
  readonly examples: readonly Example[];
  readonly view: "builder" | "client";
}

export type SessionStore = Store<Session>;

export const sessionOf = (first: Snapshot): SessionStore =>
  storeOf<Session>({
    ...first,
    past: [],
    future: [],
    moving_s: null,
    issues: [],
    failure: null,
    shown: null,
    map: null,
    schema: null,
    examples: [],
    view: "builder",
  });

/** True when the figures on the page belong to what stands in the fields. */
export const isCurrent = (session: Session): boolean => session.shown?.text === session.text;
