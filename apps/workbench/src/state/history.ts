import type { Session, SessionStore, Snapshot } from "./session.ts";

const MOST_STEPS = 200;

export const snapshotOf = ({ text, delay_s }: Session): Snapshot => ({ text, delay_s });

/** The field that was edited last: what is typed into one field in one go is one step back. */
let lastPlace: string | null = null;

export interface ChangeOptions {
  /** When given and the same as last time, the change joins the step before it. */
  readonly place?: string;
  /** True when more is likely to follow at once. */
  readonly typing?: boolean;
  readonly notice?: string;
}

/** Changes the cabinet so that it can be undone. */
export function change(store: SessionStore, next: Partial<Snapshot>, options: ChangeOptions = {}): void {
  const session = store.get();
  const before = snapshotOf(session);
  const after = { ...before, ...next };
  if (after.text === before.text && after.delay_s === before.delay_s) return;
  const { place = null, typing = false, notice = null } = options;
  const joins = place !== null && place === lastPlace && session.past.length > 0;
  lastPlace = place;
  const past = joins ? session.past : [...session.past, before].slice(-MOST_STEPS);
  store.set({ ...after, past, future: [], moving_s: null, aimed_s: null, typing, notice });
}

/** The next change begins a step of its own. */
export function endStep(): void {
  lastPlace = null;
}

export function undo(store: SessionStore): void {
  const { past, future } = store.get();
  const previous = past[past.length - 1];
  if (previous === undefined) return;
  const now = snapshotOf(store.get());
  step(store, previous, past.slice(0, -1), [now, ...future]);
}

export function redo(store: SessionStore): void {
  const { past, future } = store.get();
  const next = future[0];
  if (next === undefined) return;
  step(store, next, [...past, snapshotOf(store.get())], future.slice(1));
}

function step(
  store: SessionStore,
  to: Snapshot,
  past: readonly Snapshot[],
  future: readonly Snapshot[],
): void {
  endStep();
  store.set({ ...to, past, future, moving_s: null, aimed_s: null, typing: false, notice: null });
}
