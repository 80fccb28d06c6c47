import type { Cabinet } from "@startgap/cabinet";
import { type CheckReport, type DelayAdvice, deciding, gravestOf, onceEach } from "@startgap/study";
import { setting } from "../format.ts";
import { sentenceOf } from "./findings.ts";
import type { ReportInput } from "./input.ts";
import { html, type Inside, type Markup } from "./markup.ts";
import { count, listed, verdict } from "./words.ts";

/** What to set, in a few words. */
function headline({ recommended_s, shortest_s }: DelayAdvice, motors: number): string {
  if (motors < 2) return "One motor: nothing to hold back";
  if (recommended_s === null)
    return shortest_s === null ? "No delay to recommend" : `${setting(shortest_s)} at least`;
  return recommended_s === 0 ? "No delay is needed" : `Hold the second motor back ${setting(recommended_s)}`;
}

/** The delay that was simulated, where it is not the recommended one. */
function simulated({ cases, delay }: CheckReport): string {
  const held = cases.find((one) => one.case === "staggered");
  if (held === undefined) return "";
  return held.delay_s === delay.recommended_s
    ? `That delay of ${setting(held.delay_s)} is the one simulated here.`
    : `The delay simulated here is ${setting(held.delay_s)}.`;
}

/** How the way it is run comes out: what fails in full, cautions counted. */
function outcome(report: CheckReport): Inside {
  const findings = onceEach(deciding(report));
  const fails = findings.filter((finding) => finding.outcome === "fail");
  const cautions = findings.filter((finding) => finding.outcome === "caution").length;
  if (fails.length > 0)
    return ["With it ", count(fails.length, "finding fails", "findings fail"), ". ", sentenceOf(fails[0])];
  return cautions === 0
    ? "Nothing fails and nothing asks for caution."
    : `Nothing fails; ${count(cautions, "finding asks", "findings ask")} for caution.`;
}

/** Where more than one relay holds motors back, what each is set to: they keep their proportion. */
function settings({ relays }: Cabinet, { recommended_s }: DelayAdvice): string {
  const stated = relays.filter((relay) => relay.delay_s.nominal > 0);
  if (recommended_s === null || recommended_s === 0 || stated.length < 2) return "";
  const shortest = Math.min(...stated.map((relay) => relay.delay_s.nominal));
  const each = stated.map(
    ({ name, delay_s }) => `${name} ${setting((recommended_s * delay_s.nominal) / shortest)}`,
  );
  return `The relays keep their proportion: ${listed(each)}.`;
}

/** The answer in one plain paragraph: what to set, why, and how it comes out. */
export function answer({ cabinet, check: { report } }: ReportInput): Markup {
  const motors = cabinet.circuit.parts.filter((part) => part.is === "motor").length;
  const said = [report.delay.reason, settings(cabinet, report.delay), simulated(report)].filter(
    (words) => words !== "",
  );
  return html`<section id="answer" aria-labelledby="answer-heading">
<h2 id="answer-heading">Recommended setting</h2>
<p class="headline">${verdict(gravestOf(deciding(report)) ?? "pass")} ${headline(report.delay, motors)}</p>
<p>${said.join(" ")} ${outcome(report)}</p>
</section>
`;
}
