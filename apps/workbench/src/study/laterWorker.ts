/** Longer work off the page's own thread: one question, one answer. */

import { besides, check, isFailure, type StudyFailure, tracesCsv, wave } from "@startgap/study";
import { caught } from "./caught.ts";
import type { LaterAnswer, LaterQuestion, Told } from "./laterMessages.ts";

const tell = (told: Told, handedOver: Transferable[] = []): void =>
  (self as unknown as Worker).postMessage(told, handedOver);

/** A hundredth at a time is often enough to be told. */
function progressTeller(): (fraction: number) => void {
  let last = 0;
  return (fraction) => {
    if (fraction < last + 0.01) return;
    last = fraction;
    tell({ progress: fraction });
  };
}

const failed = ({ failed: sentence }: StudyFailure): LaterAnswer => ({ say: "failed", sentence });

function answerTo({ ask, cabinet, options }: LaterQuestion): LaterAnswer {
  const onProgress = progressTeller();
  if (ask === "wave") {
    const study = wave(cabinet, { ...options, onProgress });
    return isFailure(study) ? failed(study) : { say: "wave", study };
  }
  const told = check(cabinet, { ...options, onProgress, withMap: ask === "everything" });
  if (isFailure(told)) return failed(told);
  if (ask === "table") return { say: "table", text: tracesCsv(told.stories) };
  return { say: "everything", check: told, beside: besides(cabinet, options) };
}

addEventListener("message", ({ data }: MessageEvent<LaterQuestion>) => {
  const answer = caught(answerTo, data);
  const columns = answer.say === "wave" ? answer.study.traces.columns.map(({ values }) => values.buffer) : [];
  tell({ answer }, [...new Set(columns)] as Transferable[]);
});
