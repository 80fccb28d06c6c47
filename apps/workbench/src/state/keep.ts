import type { Session, SessionStore, Snapshot } from "./session.ts";

/** Work as it is kept in the browser between visits. */
export interface Kept {
  readonly at: number;
  readonly title: string;
  readonly text: string;
  readonly delay_s: number | null;
  readonly past: readonly Snapshot[];
}

const PREFIX = "startgap work ";
const MOST_KEPT = 12;
const MOST_STEPS = 40;
const PAUSE_ms = 300;

/** A window's own place: two open windows never write over each other. */
function ownKey(): string {
  const known = sessionStorage.getItem("startgap window");
  if (known !== null) return known;
  const key = `${PREFIX}${Date.now()} ${Math.random().toString(36).slice(2, 8)}`;
  sessionStorage.setItem("startgap window", key);
  return key;
}

/** What was kept, newest first; nothing when the browser keeps nothing. */
export function keptWork(): Kept[] {
  try {
    const keys = Object.keys(localStorage).filter((key) => key.startsWith(PREFIX));
    const found = keys.flatMap((key) => readKept(localStorage.getItem(key)) ?? []);
    return found.sort((a, b) => b.at - a.at);
  } catch {
    return [];
  }
}

/** Somebody else may have written there: only what has the right shape counts. */
function readKept(text: string | null): Kept | null {
  try {
    const kept = JSON.parse(text ?? "") as Partial<Kept>;
    const fine =
      typeof kept.text === "string" && typeof kept.at === "number" && typeof kept.title === "string";
    if (!fine) return null;
    const past = Array.isArray(kept.past) ? kept.past.filter(isSnapshot).map(snapshotIn) : [];
    return { at: kept.at!, title: kept.title!, text: kept.text!, delay_s: delayOf(kept.delay_s), past };
  } catch {
    return null;
  }
}

const isSnapshot = (value: unknown): value is Snapshot =>
  typeof value === "object" && value !== null && typeof (value as Snapshot).text === "string";

const snapshotIn = ({ text, delay_s }: Snapshot): Snapshot => ({ text, delay_s: delayOf(delay_s) });

const delayOf = (value: unknown): number | null =>
  typeof value === "number" && Number.isFinite(value) && value >= 0 ? value : null;

/** Keeps the work of this window from now on: shortly after every change, and when the page is left. */
export function keepWork(store: SessionStore): void {
  let timer = 0;
  const write = (): void => {
    clearTimeout(timer);
    timer = 0;
    writeKept(store.get());
  };
  store.watch((now, before) => {
    if (now.text === before.text && now.delay_s === before.delay_s) return;
    if (timer === 0) timer = window.setTimeout(write, PAUSE_ms);
  });
  addEventListener("pagehide", () => {
    if (timer !== 0) write();
  });
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "hidden" && timer !== 0) write();
  });
}

/** Steps back that are kept with the work: not many, and not large. */
const MOST_PAST_chars = 200_000;

function recentSteps(past: readonly Snapshot[]): readonly Snapshot[] {
  let chars = 0;
  const recent = past.slice(-MOST_STEPS).reverse();
  const cut = recent.findIndex((step) => {
    chars += step.text.length;
    return chars > MOST_PAST_chars;
  });
  return (cut < 0 ? recent : recent.slice(0, cut)).reverse();
}

/** What is typed now goes before its steps back, and before all older work, where there is little room. */
function writeKept({ text, delay_s, past }: Session): void {
  const work: Kept = { at: Date.now(), title: titleIn(text), text, delay_s, past: recentSteps(past) };
  for (const [attempt, most] of [
    [work, MOST_KEPT],
    [{ ...work, past: [] }, 3],
    [{ ...work, past: [] }, 1],
  ] as const) {
    try {
      const key = ownKey();
      forgetOldest(key, most);
      localStorage.setItem(key, JSON.stringify(attempt));
      return;
    } catch {
      // The browser is full, or keeps nothing at all: then the page still runs.
    }
  }
}

function forgetOldest(own: string, most: number): void {
  const keys = Object.keys(localStorage).filter((key) => key.startsWith(PREFIX) && key !== own);
  const ages = keys.map((key) => ({ key, at: readKept(localStorage.getItem(key))?.at ?? 0 }));
  ages.sort((a, b) => b.at - a.at);
  for (const { key } of ages.slice(most - 1)) localStorage.removeItem(key);
}

/** The title of a file that need not be whole. */
export function titleIn(text: string): string {
  try {
    const title = (JSON.parse(text) as { title?: unknown }).title;
    return typeof title === "string" && title.trim() !== "" ? title : "Without a title";
  } catch {
    return "A file that cannot be read";
  }
}
