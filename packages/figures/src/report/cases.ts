import type {
  CaseReport,
  CheckReport,
  ContactorResult,
  FuseResult,
  MotorResult,
  PointResult,
} from "@startgap/study";
import { amperes, duration, meltPercent, significant, speed, volts } from "../format.ts";
import { html, type Markup } from "./markup.ts";
import { headOf, scrolling } from "./table.ts";
import { caseName, coilVolts, count, notKnown } from "./words.ts";

/** One quantity of a part's result. */
type Line<R> = readonly [quantity: string, cell: (result: R) => string];

const known = (value: number | null, words: (value: number) => string): string =>
  value === null || !Number.isFinite(value) ? notKnown : words(value);

const endings: Readonly<Record<MotorResult["outcome"], string>> = {
  running: "runs",
  stalled: "stalls",
  off: "off",
  tripped: "trips",
};

const motorLines: readonly Line<MotorResult>[] = [
  ["at the end", ({ outcome, closed_s }) => (closed_s === null ? notKnown : endings[outcome])],
  ["run-up", ({ runUp_s }) => known(runUp_s, duration)],
  ["start switch opens after", ({ switchOpened_s }) => known(switchOpened_s, duration)],
  ["lowest voltage", ({ lowestVoltage_V }) => known(lowestVoltage_V, volts)],
  [
    "highest current",
    ({ peakCurrent_A, closed_s }) => (closed_s === null ? notKnown : amperes(peakCurrent_A)),
  ],
  [
    "current at the end",
    ({ finalCurrent_A, closed_s }) => (closed_s === null ? notKnown : amperes(finalCurrent_A)),
  ],
  [
    "speed at the end",
    ({ finalSpeed_rpm, closed_s }) => (closed_s === null ? notKnown : speed(finalSpeed_rpm)),
  ],
];

const pointLines: readonly Line<PointResult>[] = [
  ["lowest voltage", ({ lowestVoltage_V }) => volts(lowestVoltage_V)],
  ["below 90 % of nominal for", ({ below90_s }) => (below90_s > 0 ? duration(below90_s) : "never")],
  ["voltage at the end", ({ finalVoltage_V }) => volts(finalVoltage_V)],
];

const fuseLines: readonly Line<FuseResult>[] = [
  [
    "how far to melting",
    ({ meltFraction, currentMargin }) => (currentMargin === null ? notKnown : meltPercent(meltFraction)),
  ],
  [
    "factor left on the current",
    ({ currentMargin }) => known(currentMargin, (margin) => significant(margin, 2)),
  ],
  ["highest current", ({ peakCurrent_A }) => amperes(peakCurrent_A)],
  ["opens at", ({ opened_s }) => (opened_s === null ? "never" : duration(opened_s))],
];

const contactorLines: readonly Line<ContactorResult>[] = [
  ["drops out", ({ dropOuts }) => (dropOuts === 0 ? "never" : count(dropOuts, "time"))],
  ["lowest coil voltage", ({ lowestCoil_V }) => known(lowestCoil_V, coilVolts)],
];

/** A part's quantities side by side for every case; a quantity that no case knows is left out. */
function groups<R extends { readonly part: string }>(
  cases: readonly CaseReport[],
  of: (one: CaseReport) => readonly R[],
  lines: readonly Line<R>[],
): Markup[] {
  const parts = [...new Set(cases.flatMap((one) => of(one).map(({ part }) => part)))];
  return parts.map((part) => {
    const results = cases.map((one) => of(one).find((result) => result.part === part));
    const rows = lines
      .map(([quantity, cell]) => ({
        quantity,
        cells: results.map((r) => (r === undefined ? notKnown : cell(r))),
      }))
      .filter(({ cells }) => cells.some((words) => words !== notKnown));
    return html`<tbody>
<tr class="group"><th scope="rowgroup" colspan="${cases.length + 1}"><bdi>${part}</bdi></th></tr>
${rows.map(({ quantity, cells }) => html`<tr><th scope="row">${quantity}</th>${cells.map((words) => html`<td>${words}</td>`)}</tr>\n`)}</tbody>
`;
  });
}

/** The cases side by side, part by part. */
export function casesSection({ cases }: CheckReport): Markup {
  const head = ["Part and quantity", ...cases.map(caseName)];
  const says = "Every case, part by part";
  return html`<section id="cases" aria-labelledby="cases-heading">
<h2 id="cases-heading">Cases side by side</h2>
<p>Rms values. Times of a motor count from its own closing. ${cases.map((one) => `${caseName(one)}: ${one.ended}`).join(" ")}</p>
${scrolling(
  says,
  html`<table class="cases">
<caption>${says}</caption>
${headOf(head)}${[
  groups(cases, (one) => one.motors, motorLines),
  groups(cases, (one) => one.points, pointLines),
  groups(cases, (one) => one.fuses, fuseLines),
  groups(cases, (one) => one.contactors, contactorLines),
]}</table>
`,
)}</section>
`;
}
