import type { Answer, Answered, Asked, Question } from "./messages.ts";

/** A line to one worker: it works on one question at a time, and of those that wait only the newest counts. */
export interface Line {
  ask(question: Question, onAnswer: (answer: Answer) => void): void;
}

interface Waiting {
  readonly question: Question;
  readonly onAnswer: (answer: Answer) => void;
}

export function lineTo(worker: Worker): Line {
  let number = 0;
  let open: Waiting | null = null;
  let next: Waiting | null = null;
  const send = (waiting: Waiting): void => {
    open = waiting;
    number += 1;
    worker.postMessage({ number, question: waiting.question } satisfies Asked);
  };
  const close = (answer: Answer): void => {
    const answered = open;
    const waiting = next;
    [open, next] = [null, null];
    if (waiting !== null) send(waiting);
    answered?.onAnswer(answer);
  };
  worker.addEventListener("message", ({ data }: MessageEvent<Answered>) => {
    if (data.number === number) close(data.answer);
  });
  worker.addEventListener("error", (event) => {
    close({ say: "failed", sentence: `The study stopped: ${event.message || "its script did not load"}.` });
  });
  return {
    ask(question, onAnswer) {
      const waiting = { question, onAnswer };
      if (open === null) send(waiting);
      else next = waiting;
    },
  };
}
