import type { DelayAdvice, Finding } from "@startgap/study";
import { el, say } from "../dom.ts";
import { inNextFrame } from "../frames.ts";
import {
  COARSE_STEP_s,
  delayNow_s,
  delayShown_s,
  FINE_STEP_s,
  hasRelay,
  LONGEST_DELAY_s,
  settable,
} from "../state/delay.ts";
import { endStep } from "../state/history.ts";
import { isCurrent, type Session, type SessionStore } from "../state/session.ts";
import { setDelay } from "../state/setDelay.ts";
import { countWords, seconds, unbroken } from "../words.ts";

/** The plain answer: how long to hold the second motor back, and how it stands at the delay now set. */
export function answerView(store: SessionStore): HTMLElement {
  const headline = el("p", { class: "headline" });
  const reason = el("p", { class: "soft" });
  const standing = el("p", { class: "standing", role: "status" });
  const where = el("p", { class: "soft" });
  const { root: setter, field } = delayField(store);
  const use = el("button", { type: "button" }, "");
  use.addEventListener("click", () => {
    const { recommended_s } = adviceOf(store.get()) ?? { recommended_s: null };
    endStep();
    if (recommended_s !== null) setDelay(store, recommended_s);
  });
  const draw = inNextFrame(() => {
    const session = store.get();
    const delay_s = delayShown_s(session);
    setter.hidden = delay_s === null;
    if (delay_s !== null && document.activeElement !== field)
      field.value = String(Number(delay_s.toFixed(2)));
    const advice = adviceOf(session);
    const failure = session.map?.failure ?? null;
    say(headline, advice !== null ? headlineOf(advice) : failure === null ? "Trying every delay …" : "");
    say(reason, advice === null ? (failure ?? "") : unbroken(advice.reason));
    const recommended_s = advice?.recommended_s ?? null;
    use.hidden = recommended_s === null || recommended_s === delay_s;
    if (recommended_s !== null) say(use, `Use ${seconds(recommended_s)}`);
    say(standing, standingOf(session));
    say(where, delay_s === null ? "" : whereKept(session));
  });
  store.watch(draw);
  draw();
  return el(
    "section",
    { class: "card answer", id: "answer", "aria-labelledby": "answer-heading" },
    el("div", { class: "answer-words" }, el("h2", { id: "answer-heading" }, "The delay"), headline, reason),
    el("div", { class: "answer-set" }, el("div", { class: "setter" }, setter, use), standing, where),
  );
}

/** Advice for the cabinet on the page; null while every delay is still being tried. */
export function adviceOf({ map, shown }: Session): DelayAdvice | null {
  if (shown === null) return null;
  if (map?.text === shown.text && map.map !== null) return map.map.advice;
  const alone = shown.check.stories.length === 1;
  return alone ? shown.check.report.delay : (map?.map?.advice ?? null);
}

function headlineOf({ recommended_s, shortest_s }: DelayAdvice): string {
  if (recommended_s === null)
    return shortest_s === null ? "No delay to recommend" : `${seconds(shortest_s)} at least`;
  return recommended_s === 0 ? "No delay is needed" : `Hold the second motor back ${seconds(recommended_s)}`;
}

/** How the case that is set comes out, in a line that is also read aloud once things have settled. */
function standingOf(session: Session): string {
  const { shown, moving_s } = session;
  if (shown === null || moving_s !== null) return "";
  if (!isCurrent(session)) return "Not current: what was typed cannot be run yet.";
  const { check } = shown;
  const name = check.stories.some((story) => story.case === "staggered") ? "staggered" : "one";
  const own = check.report.findings.filter((finding: Finding) => finding.case === name);
  const delay_s = delayNow_s(session);
  const at = delay_s === null ? "With this motor" : `At ${seconds(delay_s)}`;
  return `${at}: ${countWords(own.map((finding) => finding.outcome))}.`;
}

function whereKept({ shown, delay_s }: Session): string {
  if (shown === null) return "";
  if (!hasRelay(shown.cabinet)) return "Tried here only: this cabinet has no delay relay to set.";
  return delay_s === null
    ? "Set at the delay relay in the cabinet."
    : "Tried here only, not written into the cabinet.";
}

function delayField(store: SessionStore) {
  const field = el("input", {
    type: "number",
    id: "delay",
    min: 0,
    max: LONGEST_DELAY_s,
    step: FINE_STEP_s,
    inputmode: "decimal",
  });
  const take = (): void => {
    const typed = field.valueAsNumber;
    if (Number.isFinite(typed)) setDelay(store, settable(typed), "delay");
  };
  field.addEventListener("input", take);
  field.addEventListener("change", endStep);
  field.addEventListener("keydown", (event) => {
    const coarse = event.shiftKey && (event.key === "ArrowUp" || event.key === "ArrowDown");
    const from = delayNow_s(store.get());
    if (!coarse || from === null) return;
    event.preventDefault();
    const to = settable(from + (event.key === "ArrowUp" ? COARSE_STEP_s : -COARSE_STEP_s));
    field.value = String(to);
    setDelay(store, to, "delay");
  });
  const label = el("label", { for: "delay" }, "Second start held back by");
  return {
    field,
    root: el("span", { class: "delay-field" }, label, " ", el("span", { class: "whole" }, field, " s")),
  };
}
