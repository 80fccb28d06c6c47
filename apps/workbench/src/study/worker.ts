/** The study, off the page's own thread. */

import { type Cabinet, cabinetSchema, examples, parseCabinet } from "@startgap/cabinet";
import { delayMap, isFailure, type Staggerer, type Story, staggerer } from "@startgap/study";
import { axisEnd_s } from "./axis.ts";
import { caught } from "./caught.ts";
import type { Answer, Answered, Asked, Question } from "./messages.ts";

/** As the study package takes it when neither the file nor the page states one. */
const USUAL_DELAY_s = 6;

/** The cabinet read last, and its stories that no delay changes: while a delay is dragged, the file stays the same. */
let kept: { readonly text: string; readonly cabinet: Cabinet; readonly at: Staggerer } | null = null;
/** The file whose cabinet the page has been given, and the stories it has. */
let sent: { readonly text: string; readonly stories: readonly Story[] } | null = null;

function answerTo(question: Question): Answer {
  if (question.ask === "introduce") return { say: "introduced", schema: cabinetSchema, examples };
  const { text } = question;
  if (kept?.text !== text) {
    const read = parseCabinet(text);
    if (!("cabinet" in read)) return { say: "refused", text, issues: read.issues };
    kept = { text, cabinet: read.cabinet, at: staggerer(read.cabinet) };
  }
  return question.ask === "map" ? map(text, kept.cabinet) : run(text, kept, question.delay_s);
}

function run(text: string, { cabinet, at }: NonNullable<typeof kept>, asked_s: number | null): Answer {
  const delay_s = asked_s ?? shortestDelay_s(cabinet);
  const told = at(delay_s, axisEnd_s(cabinet, delay_s));
  if (isFailure(told)) return { say: "failed", sentence: told.failed };
  const { report, stories } = told;
  const isNew = sent?.text !== text;
  const before = isNew ? [] : (sent?.stories ?? []);
  const changed = stories.findIndex((story, i) => story !== before[i]);
  const same = changed < 0 ? stories.length : changed;
  sent = { text, stories };
  return { say: "ran", text, cabinet: isNew ? cabinet : null, report, same, stories: stories.slice(same) };
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

/** Columns of a story that the next delay replaces are handed over; of those that stay, the page has a copy. */
function columnsOf(answer: Answer): Transferable[] {
  if (answer.say !== "ran") return [];
  const columns = answer.stories
    .filter((story) => story.case === "staggered")
    .flatMap(({ traces }) => [traces.time_s, ...traces.columns.map((column) => column.values)]);
  return [...new Set(columns.map((values) => values.buffer))] as Transferable[];
}

addEventListener("message", ({ data }: MessageEvent<Asked>) => {
  const answer = caught(answerTo, data.question);
  const answered: Answered = { number: data.number, answer };
  (self as unknown as Worker).postMessage(answered, columnsOf(answer));
});
