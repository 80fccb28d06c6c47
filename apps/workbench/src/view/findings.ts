import { byDanger, type CaseName, type Finding } from "@startgap/study";
import { el, fill, say } from "../dom.ts";
import { inNextFrame, watchPaper } from "../frames.ts";
import { isCurrent, type SessionStore } from "../state/session.ts";
import { caseTitle, countWords, seconds, unbroken, verdictWord } from "../words.ts";
import { markTab } from "./tabs.ts";

const order: readonly CaseName[] = ["staggered", "together", "one"];

/** The findings as sentences, a group a case: what fails first, the held-back case open. */
export function findingsView(store: SessionStore): HTMLElement {
  const groups = order.map((name) => groupOf(name));
  const root = el("div", { class: "findings", id: "findings-list" }, ...groups.map((group) => group.root));
  let opened: readonly boolean[] = [];
  watchPaper((onPaper) => {
    if (onPaper) opened = groups.map((group) => group.root.open);
    groups.forEach((group, i) => {
      group.root.open = onPaper || (opened[i] ?? group.root.open);
    });
  });
  const draw = inNextFrame(() => {
    const session = store.get();
    const check = session.shown?.check;
    root.classList.toggle("is-stale", check !== undefined && !isCurrent(session));
    if (check === undefined) return;
    for (const group of groups) {
      const report = check.report.cases.find((one) => one.case === group.name);
      const findings = check.report.findings.filter((finding) => finding.case === group.name);
      group.show(findings, report?.delay_s ?? 0, report !== undefined);
    }
    const first = groups.find(({ root: own }) => !own.hidden);
    markTab("findings", first?.words() ?? "");
  });
  store.watch((now, before) => {
    if (now.shown !== before.shown || now.text !== before.text) draw();
  });
  return root;
}

interface Group {
  readonly name: CaseName;
  readonly root: HTMLDetailsElement;
  show(findings: readonly Finding[], delay_s: number, told: boolean): void;
  /** Its count, in words. */
  words(): string;
}

function groupOf(name: CaseName): Group {
  const title = el("span", { class: "case-title" });
  const count = el("span", { class: "soft" });
  const list = el("ul", { class: "finding-list" });
  const items: ReturnType<typeof itemOf>[] = [];
  const root = el(
    "details",
    { class: `case-group ${name}`, open: name === "staggered" },
    el("summary", {}, title, " ", count),
    list,
  );
  return {
    name,
    root,
    words: () => count.textContent ?? "",
    show(findings, delay_s, told) {
      root.hidden = !told;
      const held = name === "staggered" ? ` ${seconds(delay_s)}` : "";
      say(title, `${caseTitle[name]}${held}`);
      say(count, countWords(findings.map((finding) => finding.outcome)));
      const sorted = byDanger(findings);
      while (items.length < sorted.length) items.push(itemOf());
      if (list.childElementCount !== sorted.length)
        fill(list, ...items.slice(0, sorted.length).map((item) => item.root));
      sorted.forEach((finding, i) => {
        items[i].show(finding);
      });
    },
  };
}

/** The sentence with the part's name kept apart, whatever script it is in. */
function sentenceOf({ says, part }: Finding): (string | HTMLElement)[] {
  const at = says.indexOf(part);
  if (at < 0 || part === "") return [unbroken(says)];
  return [unbroken(says.slice(0, at)), el("bdi", {}, part), unbroken(says.slice(at + part.length))];
}

/** A finding's line: kept from one check to the next, so that a drag changes only the words that change. */
function itemOf() {
  const verdict = el("span", { class: "verdict" });
  const says = el("p", {});
  const change = el("p", { class: "change" });
  const basis = el("p", { class: "basis soft" });
  const root = el("li", {}, verdict, says, change, basis);
  return {
    root,
    show(finding: Finding): void {
      const kind = `finding ${finding.outcome}`;
      if (root.className !== kind) root.className = kind;
      say(verdict, verdictWord[finding.outcome]);
      if (says.dataset.says !== finding.says) {
        says.dataset.says = finding.says;
        fill(says, ...sentenceOf(finding));
      }
      change.hidden = finding.change === null;
      say(change, finding.change === null ? "" : `Change: ${finding.change}`);
      say(basis, finding.basis);
    },
  };
}
