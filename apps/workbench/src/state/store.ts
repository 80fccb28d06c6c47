/** A value that others watch. */
export interface Store<T> {
  get(): T;
  /** Takes over the given fields and tells every watcher once. */
  set(change: Partial<T>): void;
  watch(watcher: (now: T, before: T) => void): void;
}

export function storeOf<T extends object>(first: T): Store<T> {
  let now = first;
  const watchers: ((now: T, before: T) => void)[] = [];
  return {
    get: () => now,
    set(change) {
      const before = now;
      now = { ...now, ...change };
      for (const watcher of watchers) watcher(now, before);
    },
    watch: (watcher) => watchers.push(watcher),
  };
}
