import type { Cabinet } from "@startgap/cabinet";
import type { Influence, Spread, VaryReport } from "@startgap/study";
import type { Screen } from "../io.ts";
import { caution } from "./cautions.ts";
import { verdictLines } from "./findings.ts";
import { count, percent, rated, seconds, volts } from "./numbers.ts";
import { painter } from "./paint.ts";
import { plain } from "./plain.ts";
import { table } from "./table.ts";
import { wrap } from "./wrap.ts";

const shown: Readonly<Record<Spread["unit"], (value: number | null) => string>> = {
  V: volts,
  s: seconds,
  "": percent,
};

/** Correlations below this are chance at a few hundred draws. */
const DECIDES = 0.15;

function rowOf({ part, quantity, unit, nominal, low, high, known }: Spread, told: number): string[] {
  const text = shown[unit];
  const missing = known < told ? `, in ${known} of ${told}` : "";
  return [part, `${quantity}${missing}`, text(nominal), text(low), text(high)];
}

function rangeOf({ low, high, unit }: Influence): string {
  const [from, to] = unit === "" ? [percent(low), percent(high)] : [rated(low), rated(high)];
  return unit === "" ? `${from} to ${to}` : `${from} to ${to} ${unit}`;
}

/** "garden cable, length (80.0 to 90.0 m): -0.85" */
function influenceRows(influences: readonly Influence[]): string[][] {
  return influences.map((one) => {
    const key = one.path.slice(one.path.indexOf("].") + 2);
    const much = Math.abs(one.correlation);
    const says = much < DECIDES ? "no part" : much < 0.5 ? "some" : "most";
    return [one.part, key, rangeOf(one), says];
  });
}

function answer({ draws, refused, passes, fails }: VaryReport): { fails: boolean; says: string } {
  const told = draws - refused;
  const left = refused === 0 ? "" : ` ${count(refused, "draw")} contradicted themselves and are left out.`;
  if (passes === told) return { fails: false, says: `Nothing fails in any of ${told} draws.${left}` };
  const worst = fails.slice(0, 3).map(({ finding, part, draws: n }) => `${finding} of ${part} in ${n}`);
  return { fails: true, says: `${told - passes} of ${told} draws fail: ${worst.join(", ")}.${left}` };
}

/** The answer, what every figure ranges over, and which quantity decides. */
export function varyText(cabinet: Cabinet, report: VaryReport, screen: Screen): string[] {
  const { width } = screen;
  const paint = painter(screen.colour);
  const { fails, says } = answer(report);
  const told = report.draws - report.refused;
  const rows = report.spreads.filter(({ known }) => known > 0).map((one) => rowOf(one, told));
  return [
    ...verdictLines(fails ? "fail" : "pass", plain(says), width, paint),
    ...wrap(plain(report.title), width),
    "",
    ...table([["part", "figure", "middle", "1 in 20 below", "1 in 20 above"], ...rows], width),
    "",
    "How far each decides the lowest voltage",
    ...table([["part", "quantity", "range", "decides"], ...influenceRows(report.influences)], width),
    "",
    ...wrap(
      "Everything that the file gives as a range is drawn at once, anywhere in it alike. Assumed values stay as they are: startgap check --assumptions lists them.",
      width,
    ),
    "",
    ...wrap(caution(cabinet.circuit), width).map((line) => paint("dim", line)),
  ];
}
