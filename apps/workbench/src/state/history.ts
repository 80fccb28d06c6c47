import type { Session, SessionStore, Snapshot } from "./session.ts";

const MOST_STEPS = 200;

const snapshotOf = ({ text, delay_s }: Session): Snapshot => ({ text, delay_s });

/** The field that was edited last: what is typed into one field in one go is one step back. */
let lastPlace: string | null = null;

/**
 * Changes the cabinet so that it can be undone.
 *
 * @param place when given and the same as last time, the change joins the step before it
 */
export function change(store: SessionStore, next: Partial<Snapshot>, place: string | null = null): void {
  const session = store.get();
  const before = snapshotOf(session);
  const after = { ...before, ...next };
  if (after.text === before.text && after.delay_s === before.delay_s) return;
  const joins = place !== null && place === lastPlace && session.past.length > 0;
  lastPlace = place;
  const past = joins ? session.past : [...session.past, before].slice(-MOST_STEPS);
  store.set({ ...after, past, future: [] });
}

/** The next change begins a step of its own. */
export function endStep(): void {
  lastPlace = null;
}

export function undo(store: SessionStore): void {
  const { past, future } = store.get();
  const previous = past[past.length - 1];
  if (previous === undefined) return;
  endStep();
  store.set({ ...previous, past: past.slice(0, -1), future: [snapshotOf(store.get()), ...future] });
}

export function redo(store: SessionStore): void {
  const { past, future } = store.get();
  const next = future[0];
  if (next === undefined) return;
  endStep();
  store.set({ ...next, past: [...past, snapshotOf(store.get())], future: future.slice(1) });
}
