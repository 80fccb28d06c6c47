import { type Issue, issueText } from "@startgap/cabinet";
import { el, fill } from "../dom.ts";
import { openPart } from "../editor/cabinetEditor.ts";
import { isCurrent, type Session, type SessionStore } from "../state/session.ts";
import { selectTab } from "./tabs.ts";

/** What is wrong with what was typed or opened, with the way to every place; and what just happened. */
export function notices(store: SessionStore): HTMLElement {
  const wrong = el("div", { class: "issues", hidden: true });
  const said = el("p", { class: "notice", role: "status" });
  const show = (session: Session): void => {
    const { issues, failure, notice } = session;
    said.textContent = notice ?? "";
    wrong.hidden = issues.length === 0 && failure === null;
    if (wrong.hidden) fill(wrong);
    else if (failure !== null) fill(wrong, headingOf(session), el("p", {}, failure));
    else fill(wrong, headingOf(session), listOf(issues));
  };
  store.watch((now, before) => {
    const changed = (["issues", "failure", "notice", "shown"] as const).some(
      (key) => now[key] !== before[key],
    );
    if (changed && now.moving_s === null) show(now);
  });
  show(store.get());
  return el("div", { class: "notices" }, said, el("div", { role: "alert" }, wrong));
}

function headingOf(session: Session): HTMLElement {
  const count = session.issues.length;
  const what =
    session.failure !== null ? "The study could not be finished." : `${count} to put right in the cabinet.`;
  const still =
    session.shown === null ? "" : " The figures below are those of the last cabinet that could be run.";
  return el("p", {}, el("strong", {}, what), isCurrent(session) ? "" : still);
}

/** More than anybody reads at once are counted, not listed. */
const MOST_LISTED = 12;

function listOf(issues: readonly Issue[]): HTMLElement {
  const items = issues
    .slice(0, MOST_LISTED)
    .map((issue) =>
      el(
        "li",
        { dir: "auto" },
        el(
          "button",
          { type: "button", class: "link", on: { click: () => goTo(issue.path) } },
          issueText(issue),
        ),
      ),
    );
  const rest = issues.length - items.length;
  return el("ul", {}, ...items, rest > 0 && el("li", {}, `and ${rest} more`));
}

/** Goes to the field that an issue is about, or to the nearest thing around it. */
export function goTo(path: string): void {
  selectTab("cabinet");
  const index = /^parts\[(\d+)\]/.exec(path)?.[1];
  if (index !== undefined) openPart(Number(index));
  requestAnimationFrame(() => {
    for (let place = path; place !== ""; place = place.replace(/(\.[^.[]+|\[[^\]]*\]|^[^.[]+)$/, "")) {
      const field = document.querySelector<HTMLElement>(`#cabinet [data-place="${CSS.escape(place)}"]`);
      if (field === null) continue;
      const target = field.matches("details") ? field.querySelector<HTMLElement>("summary") : field;
      target?.focus();
      return;
    }
  });
}
