import { startLaterStudy } from "../scripts/inModules.ts";
import type { LaterAnswer, LaterQuestion, Told } from "./laterMessages.ts";

export interface LongWork {
  /** Null once it was stopped. */
  readonly answer: Promise<LaterAnswer | null>;
  /** Ends it at once: nobody waits for it any more. */
  stop(): void;
}

/** Longer work in a worker of its own, which ends with it. */
export function longWork(
  question: LaterQuestion,
  onProgress: (fraction: number) => void = () => {},
): LongWork {
  let end: (answer: LaterAnswer | null) => void = () => {};
  let worker: Worker | null = null;
  let isOver = false;
  const answer = new Promise<LaterAnswer | null>((done) => {
    end = (told) => {
      isOver = true;
      worker?.terminate();
      done(told);
    };
  });
  const begin = (started: Worker): void => {
    worker = started;
    if (isOver) {
      started.terminate();
      return;
    }
    started.addEventListener("message", ({ data }: MessageEvent<Told>) => {
      if ("answer" in data) end(data.answer);
      else onProgress(data.progress);
    });
    started.addEventListener("error", (event) => {
      end({ say: "failed", sentence: `The study stopped: ${event.message || "its script did not load"}.` });
    });
    started.postMessage(question);
  };
  startLaterStudy("longer work").then(begin, (error: Error) => {
    end({ say: "failed", sentence: `It could not be started: ${error.message}.` });
  });
  return { answer, stop: () => end(null) };
}
