import type { Cabinet, Example, Issue } from "@startgap/cabinet";
import type { Selection } from "@startgap/figures";
import type { Check, DelayMap } from "@startgap/study";
import { type Store, storeOf } from "./store.ts";

/** What undo and redo go back and forth between. */
export interface Snapshot {
  /** The cabinet file with everything that was typed, right or wrong. */
  readonly text: string;
  /** Delay tried without writing it into the file; null: as the file says. */
  readonly delay_s: number | null;
}

/** The last cabinet that could be run, with its results. */
export interface Shown {
  readonly text: string;
  readonly cabinet: Cabinet;
  readonly check: Check;
}

/** What trying every delay of a cabinet gave. */
export interface Mapped {
  readonly text: string;
  /** Null where there is nothing to hold back, or it failed. */
  readonly map: DelayMap | null;
  /** Why the delays could not all be tried; null when they were. */
  readonly failure: string | null;
}

/** Which stretch of the story the time axis shows. */
export type Stretch = "all" | "first start" | "second start";

/** What the reader has chosen to look at. */
export interface Look {
  readonly selection: Selection;
  readonly voltageIn: "percent" | "V";
  readonly stretch: Stretch;
  /** Where the reading line stands; null before it was moved. */
  readonly reading_s: number | null;
}

export interface Session extends Snapshot {
  readonly past: readonly Snapshot[];
  readonly future: readonly Snapshot[];
  /** Where the handle is while it is being moved; null when it rests. */
  readonly moving_s: number | null;
  /** True while figures of a handle that is moved are longer in coming than anybody waits for. */
  readonly isLate: boolean;
  /** Where the handle was let go, until the study has caught up. */
  readonly aimed_s: number | null;
  /** True while somebody is typing: the study waits for a pause. */
  readonly typing: boolean;
  readonly issues: readonly Issue[];
  /** Why the study could not be finished; null when it was. */
  readonly failure: string | null;
  /** A word to the reader about what just happened. */
  readonly notice: string | null;
  readonly shown: Shown | null;
  readonly map: Mapped | null;
  readonly schema: unknown;
  readonly examples: readonly Example[];
  readonly view: "builder" | "client";
  readonly look: Look;
}

export type SessionStore = Store<Session>;

export const sessionOf = (first: Partial<Session>): SessionStore =>
  storeOf<Session>({
    text: "",
    delay_s: null,
    past: [],
    future: [],
    moving_s: null,
    isLate: false,
    aimed_s: null,
    typing: false,
    issues: [],
    failure: null,
    notice: null,
    shown: null,
    map: null,
    schema: null,
    examples: [],
    view: "builder",
    look: { selection: {}, voltageIn: "percent", stretch: "all", reading_s: null },
    ...first,
  });

/** True when the figures on the page belong to what stands in the fields. */
export const isCurrent = ({ shown, text }: Session): boolean => shown !== null && shown.text === text;

export function setLook(store: SessionStore, look: Partial<Look>): void {
  store.set({ look: { ...store.get().look, ...look } });
}
