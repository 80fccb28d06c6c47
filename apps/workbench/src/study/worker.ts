/** The study, off the page's own thread. */

import { type Cabinet, cabinetSchema, examples, parseCabinet } from "@startgap/cabinet";
import { check, delayMap, isFailure } from "@startgap/study";
import { axisEnd_s } from "./axis.ts";
import type { Answer, Answered, Asked, Question } from "./messages.ts";

/** As the study package takes it when neither the file nor the page states one. */
const USUAL_DELAY_s = 6;

/** The cabinet read last: while a delay is dragged, the file stays the same. */
let kept: { readonly text: string; readonly cabinet: Cabinet } | null = null;
/** The file whose cabinet the page has been given. */
let sent: string | null = null;

function answerTo(question: Question): Answer {
  if (question.ask === "introduce") return { say: "introduced", schema: cabinetSchema, examples };
  const { text } = question;
  const read = kept?.text === text ? kept : parseCabinet(text);
  if (!("cabinet" in read)) return { say: "refused", text, issues: read.issues };
  const { cabinet } = read;
  kept = { text, cabinet };
  if (question.ask === "map") return map(text, cabinet);
  const delay_s = question.delay_s ?? shortestDelay_s(cabinet);
  const told = check(cabinet, { delay_s, duration_s: axisEnd_s(cabinet, delay_s), withMap: false });
  if (isFailure(told)) return { say: "failed", sentence: told.failed };
  const isNew = sent !== text;
  sent = text;
  return { say: "ran", text, cabinet: isNew ? cabinet : null, check: told };
}

function map(text: string, cabinet: Cabinet): Answer {
  const found = delayMap(cabinet);
  if (found !== null && isFailure(found)) return { say: "failed", sentence: found.failed };
  return { say: "mapped", text, map: found };
}

function shortestDelay_s({ relays }: Cabinet): number {
  const stated = relays.map((relay) => relay.delay_s.nominal).filter((delay) => delay > 0);
  return stated.length > 0 ? Math.min(...stated) : USUAL_DELAY_s;
}

/** Columns are handed over, not copied. */
function columnsOf(answer: Answer): Transferable[] {
  if (answer.say !== "ran") return [];
  const columns = answer.check.stories.flatMap(({ traces }) => [
    traces.time_s,
    ...traces.columns.map((column) => column.values),
  ]);
  return [...new Set(columns.map((values) => values.buffer))] as Transferable[];
}

/** A mistake in the study must not leave the page waiting. */
function caught(question: Question): Answer {
  try {
    return answerTo(question);
  } catch (error) {
    return {
      say: "failed",
      sentence: `The study stopped: ${error instanceof Error ? error.message : error}.`,
    };
  }
}

addEventListener("message", ({ data }: MessageEvent<Asked>) => {
  const answer = caught(data.question);
  const answered: Answered = { number: data.number, answer };
  (self as unknown as Worker).postMessage(answered, columnsOf(answer));
});
