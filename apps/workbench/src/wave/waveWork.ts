import type { WaveStudy } from "@startgap/study";
import { later } from "../scripts/inModules.ts";
import { staggeredDelay_s } from "../state/delay.ts";
import { isCurrent, type Session, type SessionStore } from "../state/session.ts";
import { type LongWork, longWork } from "../study/longWork.ts";
import { type Wanted, windowOf } from "./wanted.ts";

type Draw = Awaited<ReturnType<typeof later>>["waveform"];

/** A waveform as it was told, with what draws it. */
export interface ToldWave {
  readonly study: WaveStudy;
  readonly draw: Draw;
}

/** Where the waveform stands. */
export interface WaveState {
  /** Null until a stretch was chosen. */
  readonly wanted: Wanted | null;
  readonly told: ToldWave | null;
  /** True while what is shown is not what is wanted. */
  readonly isStale: boolean;
  /** 0 to 1 while it is being worked out; null else. */
  readonly progress: number | null;
  readonly failure: string | null;
}

export interface WaveWork {
  state(): WaveState;
  want(wanted: Wanted): void;
  /** Gives up what is being worked out. */
  stop(): void;
}

/** What a waveform is of: it is followed anew when this differs. */
const sourceOf = ({ shown }: Session): readonly unknown[] => [
  shown?.cabinet,
  shown === null ? null : staggeredDelay_s(shown.check),
];

/**
 * Follows the wanted stretch in a worker of its own, and anew whenever the cabinet or the delay has changed and rests;
 * what is no longer wanted is stopped at once.
 */
export function waveWork(store: SessionStore, onChange: () => void): WaveWork {
  let state: WaveState = { wanted: null, told: null, isStale: false, progress: null, failure: null };
  let work: LongWork | null = null;
  let source: readonly unknown[] = [];
  const set = (change: Partial<WaveState>): void => {
    state = { ...state, ...change };
    onChange();
  };
  const stop = (): void => {
    work?.stop();
    work = null;
    if (state.progress !== null) set({ progress: null, isStale: true });
  };
  const follow = async (session: Session, wanted: Wanted): Promise<void> => {
    const { shown } = session;
    if (shown === null) return;
    stop();
    const delay_s = staggeredDelay_s(shown.check);
    const options = { case: wanted.case, ...windowOf(wanted, delay_s ?? 0) };
    set({ wanted, progress: 0, failure: null, isStale: true });
    const question = {
      ask: "wave",
      cabinet: shown.cabinet,
      options: { ...options, delay_s: delay_s ?? undefined },
    } as const;
    const mine = longWork(question, (progress) => {
      if (work === mine) set({ progress });
    });
    work = mine;
    const answer = await mine.answer;
    if (work !== mine || answer === null) return;
    work = null;
    if (answer.say === "wave") {
      const { waveform } = await later();
      set({ told: { study: answer.study, draw: waveform }, isStale: false, progress: null });
    } else set({ failure: answer.say === "failed" ? answer.sentence : null, progress: null });
  };
  const runAnew = (session: Session, wanted: Wanted): void => {
    source = sourceOf(session);
    void follow(session, wanted);
  };
  store.watch((now) => {
    if (state.wanted === null || now.shown === null) return;
    const next = sourceOf(now);
    if (next.every((one, i) => one === source[i])) return;
    if (work !== null) stop();
    if (!state.isStale) set({ isStale: true });
    const rests = now.moving_s === null && now.aimed_s === null && isCurrent(now);
    if (rests) runAnew(now, state.wanted);
  });
  return { state: () => state, want: (wanted) => runAnew(store.get(), wanted), stop };
}
