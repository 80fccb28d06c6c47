import type { CaseName, Finding } from "@startgap/study";
import { el, fill } from "../dom.ts";
import { inNextFrame } from "../frames.ts";
import type { SessionStore } from "../state/session.ts";
import { caseTitle, countWords, seconds, verdictOrder, verdictWord } from "../words.ts";

const order: readonly CaseName[] = ["staggered", "together", "one"];

/** The findings as sentences, a group a case: what fails first, the held-back case open. */
export function findingsView(store: SessionStore): HTMLElement {
  const groups = order.map((name) => groupOf(name));
  const draw = inNextFrame(() => {
    const check = store.get().shown?.check;
    if (check === undefined) return;
    for (const group of groups) {
      const report = check.report.cases.find((one) => one.case === group.name);
      const findings = check.report.findings.filter((finding) => finding.case === group.name);
      group.show(findings, report?.delay_s ?? 0, report !== undefined);
    }
  });
  store.watch((now, before) => {
    if (now.shown !== before.shown) draw();
  });
  return el(
    "section",
    { class: "card findings", "aria-labelledby": "findings-heading", id: "findings" },
    el("h2", { id: "findings-heading" }, "Findings"),
    ...groups.map((group) => group.root),
  );
}

interface Group {
  readonly name: CaseName;
  readonly root: HTMLElement;
  show(findings: readonly Finding[], delay_s: number, told: boolean): void;
}

function groupOf(name: CaseName): Group {
  const title = el("span", { class: "case-title" });
  const count = el("span", { class: "soft" });
  const list = el("ul", { class: "finding-list" });
  const root = el(
    "details",
    { class: `case-group ${name}`, open: name === "staggered" },
    el("summary", {}, title, " ", count),
    list,
  );
  return {
    name,
    root,
    show(findings, delay_s, told) {
      root.hidden = !told;
      const held = name === "staggered" ? ` ${seconds(delay_s)}` : "";
      fill(title, `${caseTitle[name]}${held}`);
      fill(count, countWords(findings.map((finding) => finding.outcome)));
      const sorted = verdictOrder.flatMap((verdict) => findings.filter((one) => one.outcome === verdict));
      fill(list, ...sorted.map(itemOf));
    },
  };
}

function itemOf(finding: Finding): HTMLElement {
  return el(
    "li",
    { class: `finding ${finding.outcome}` },
    el("span", { class: "verdict" }, verdictWord[finding.outcome]),
    el("p", { dir: "auto" }, finding.says),
    el("p", { class: "basis soft" }, finding.basis),
  );
}
