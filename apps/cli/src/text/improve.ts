import type { Cabinet } from "@startgap/cabinet";
import type { CabinetStanding, Improvement, ImproveReport } from "@startgap/study";
import type { Screen } from "../io.ts";
import { caution } from "./cautions.ts";
import { count, percent, seconds } from "./numbers.ts";
import { painter } from "./paint.ts";
import { plain } from "./plain.ts";
import { table } from "./table.ts";
import { wrap } from "./wrap.ts";

const share = (value: number | null): string => percent(value === null ? null : value / 100);

const delay = ({ together, shortest_s }: CabinetStanding): string => {
  if (together === null) return "-";
  return shortest_s === null ? "no help" : shortest_s === 0 ? "none" : seconds(shortest_s);
};

const cells = (one: CabinetStanding): string[] => [
  share(one.lowestMotor_percent),
  share(one.lowestPoint_percent),
  delay(one),
  `${one.fails}`,
  `${one.cautions}`,
];

const sentence = ({ part, to, from }: Improvement): string => `${part}: ${to} instead of ${from}`;

/** "failures 2 to 0, cautions 6 to 1, lowest motor voltage 84 % to 91 %" */
function gains(change: Improvement, asItIs: CabinetStanding): string {
  const moved = (name: string, before: string, after: string): string[] =>
    before === after ? [] : [`${name} ${before} to ${after}`];
  return [
    ...moved("failures", `${asItIs.fails}`, `${change.fails}`),
    ...moved("cautions", `${asItIs.cautions}`, `${change.cautions}`),
    ...moved("lowest motor voltage", share(asItIs.lowestMotor_percent), share(change.lowestMotor_percent)),
    ...moved("receptacles", share(asItIs.lowestPoint_percent), share(change.lowestPoint_percent)),
    ...moved("shortest delay", delay(asItIs), delay(change)),
  ].join(", ");
}

function answer({ asItIs, changes }: ImproveReport): string {
  const [best] = changes;
  if (best === undefined)
    return "The file leaves no single change to try: every impedance is stated outright.";
  if (!best.helps) return `None of ${count(changes.length, "change")} helps by itself.`;
  return `${sentence(best)} helps most: ${gains(best, asItIs)}.`;
}

const NOTES =
  "Voltages are the lowest of the held-back start, of what is rated; the delay is the shortest from which on nothing fails. One change at a time. Neither price nor room is asked, nor what protects the changed part: startgap protect tells that.";

/** The answer, a row for every change, and what the ranking does not ask. */
export function improveText(cabinet: Cabinet, report: ImproveReport, screen: Screen): string[] {
  const { width } = screen;
  const paint = painter(screen.colour);
  const { title, asItIs, changes } = report;
  const could = changes.filter((one) => one.failed === null);
  const rows = could.map((one) => [`${one.part}: ${one.to}`, ...cells(one), one.helps ? "yes" : "no"]);
  const head = ["change", "motors", "receptacles", "delay", "fails", "cautions", "helps"];
  const failed = changes.flatMap((one) =>
    one.failed === null ? [] : wrap(`${sentence(one)}: not told. ${one.failed}`, width),
  );
  return [
    ...wrap(plain(answer(report)), width).map((line) => paint("bold", line)),
    ...wrap(plain(title), width),
    "",
    ...table([head, ["as it is", ...cells(asItIs), "-"], ...rows], width),
    ...failed,
    "",
    ...wrap(NOTES, width),
    "",
    ...wrap(caution(cabinet.circuit), width).map((line) => paint("dim", line)),
  ];
}
