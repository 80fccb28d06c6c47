import type { FuseSheet, Hold } from "../fuseSheet.ts";
import type { Screen } from "../io.ts";
import { caseName } from "./cases.ts";
import { amperes, rated, seconds } from "./numbers.ts";
import { painter } from "./paint.ts";
import { table } from "./table.ts";
import { wrap } from "./wrap.ts";

const orNever = (value: number | null): string => (value === null ? "never" : seconds(value));

const hot = (hold: Hold): string => (hold.runningCurrent_A === null ? "-" : orNever(hold.hot_s));

function holdSentence(hold: Hold): string {
  const start = `the greatest starting current, ${amperes(hold.startingCurrent_A)},`;
  if (hold.cold_s === null) return `${start} never melts it`;
  const running = hold.runningCurrent_A === null ? "" : ` and ${hot(hold)} after long running`;
  return `${start} may last ${orNever(hold.cold_s)} from cold${running}`;
}

/** The case that asks most of the fuse. */
const hardest = (holds: readonly Hold[]): Hold | undefined =>
  [...holds].sort((a, b) => b.startingCurrent_A - a.startingCurrent_A)[0];

function answer({ fuse, holds }: FuseSheet): string {
  const rating = `${fuse.name}, ${rated(fuse.rating_A)} A`;
  if (fuse.melt === null) return `${rating}: no curve, so it never melts here.`;
  const hold = hardest(holds);
  return hold === undefined ? `${rating}.` : `${rating}: ${holdSentence(hold)}.`;
}

/** One fuse for a person, as lines. */
export function fuseText(sheet: FuseSheet, screen: Screen): string[] {
  const paint = painter(screen.colour);
  const { width } = screen;
  const times = sheet.times.map((t) => [
    `${t.timesRating} x`,
    amperes(t.current_A),
    orNever(t.melting_s),
    orNever(t.clearing_s),
  ]);
  const holds = sheet.holds.map((h) => [
    caseName({ case: h.case, delay_s: h.delay_s }),
    amperes(h.startingCurrent_A),
    orNever(h.cold_s),
    hot(h),
  ]);
  return [
    ...wrap(answer(sheet), width).map((line) => paint("bold", line)),
    "",
    ...table([["start", "greatest current", "holds cold", "holds hot"], ...holds], width),
    "",
    ...table([["rating", "current", "melts from", "open by"], ...times], width),
  ];
}
