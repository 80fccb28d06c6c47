import type { Cabinet } from "@startgap/cabinet";
import {
  type DipEdges,
  type DipEnd,
  type DipMap,
  type DipOutcome,
  dipSays,
  gravestOf,
  type NoDips,
  type Verdict,
} from "@startgap/study";
import type { Screen } from "../io.ts";
import { caution } from "./cautions.ts";
import { verdictLines } from "./findings.ts";
import { painter } from "./paint.ts";
import { table } from "./table.ts";
import { labelled, wrap } from "./wrap.ts";

/** "60 ms", "1.3 s" */
const length = (t: number): string =>
  t < 1 ? `${Number((1000 * t).toPrecision(2))} ms` : `${Number(t.toPrecision(2))} s`;
const percent = (left: number): string => `${Number((100 * left).toFixed(1))} %`;

/** A letter and what it stands for: the table has no room for words. */
const SIGNS: Readonly<Record<DipEnd, readonly [sign: string, says: string]>> = {
  holds: [".", "every motor runs on"],
  together: ["T", "all restart together"],
  staggered: ["S", "a staggered restart"],
  alone: ["A", "one motor restarts alone"],
  "stays off": ["O", "something stays off"],
  chatters: ["C", "contacts chatter without end"],
};
const LOADED = "+";
const FAILS = "!";

const cellOf = (outcome: DipOutcome): string =>
  `${SIGNS[outcome.end][0]}${outcome.loaded.length > 0 ? LOADED : ""}${outcome.verdict === "fail" ? FAILS : ""}`;

/** The grid with what is left from the top down, as it is drawn; nothing where the screen is too narrow for it. */
function gridLines({ left, length_s, outcomes }: DipMap, width: number): string[] {
  const head = ["left", ...length_s.map((t) => `${Number((1000 * t).toPrecision(3))}`), "ms"];
  const rows = left.map((remaining, i) => [percent(remaining), ...outcomes[i].map(cellOf)]);
  const lines = table([head, ...rows.reverse()], width);
  return lines.length === rows.length + 1 ? lines : [];
}

/** What the signs of this map mean. */
function keyLines({ outcomes }: DipMap, width: number): string[] {
  const all = outcomes.flat();
  const ends = (Object.keys(SIGNS) as DipEnd[]).filter((end) => all.some((one) => one.end === end));
  const signs = ends.map((end) => `${SIGNS[end][0]} ${SIGNS[end][1]}`);
  const loaded = all.some((one) => one.loaded.length > 0) ? [`${LOADED} against full heads`] : [];
  const fails = all.some((one) => one.verdict === "fail") ? [`${FAILS} and something goes wrong`] : [];
  return wrap(`${[...signs, ...loaded, ...fails].join("; ")}.`, width);
}

/** Rows whose edges read alike, as one sentence: "0 % to 50 % left: ..." */
function edgeSentences({ edges, left, length_s }: DipMap): string[] {
  const asked = edges.filter((row) => left.includes(row.left));
  const last = length_s[length_s.length - 1];
  const runs: { from: number; to: number; says: string }[] = [];
  for (const row of asked) {
    const says = edgesSay(row, last);
    const before = runs[runs.length - 1];
    if (before?.says === says) before.to = row.left;
    else runs.push({ from: row.left, to: row.left, says });
  }
  return runs.map(
    ({ from, to, says }) =>
      `${from === to ? percent(from) : `${percent(from)} to ${percent(to)}`} left: ${says}.`,
  );
}

function edgesSay({ shortest, changes }: DipEdges, last_s: number): string {
  const ends = [shortest, ...changes.map(({ after }) => after)];
  return ends
    .map((end, i) => {
      const until = changes[i] === undefined ? `to ${length(last_s)}` : `up to ${length(changes[i].at_s)}`;
      return `${SIGNS[end][1]} ${until}`;
    })
    .join(", then ");
}

/** The gravest dips in one sentence. */
function answer(map: DipMap, verdict: Verdict): string {
  const all = map.outcomes.flat();
  const fails = all.filter((one) => one.verdict === "fail");
  const both = all.filter((one) => one.end === "together");
  const spoken = (list: readonly DipOutcome[]): string => {
    const lengths = list.map((one) => one.length_s);
    const [short, long] = [Math.min(...lengths), Math.max(...lengths)];
    return short === long ? length(short) : `${length(short)} to ${length(long)}`;
  };
  if (verdict === "fail") return `After some dips, of ${spoken(fails)}, not everything comes back by itself.`;
  if (verdict === "caution") return `After some dips, of ${spoken(both)}, all motors restart together.`;
  return "After every dip that was tried the motors run on, or come back one after the other.";
}

/** A dip map for a person, as lines. */
export function dipMapText(cabinet: Cabinet, map: DipMap, screen: Screen): string[] {
  const { width } = screen;
  const paint = painter(screen.colour);
  const verdict = gravestOf(map.outcomes.flat().map((one) => ({ outcome: one.verdict }))) ?? "pass";
  const grid = gridLines(map, width);
  return [
    ...verdictLines(verdict, answer(map, verdict), width, paint, "bold"),
    ...map.changes.flatMap((change) => labelled("         Change: ", change, width)),
    ...wrap(cabinet.title, width).map((line) => paint("dim", line)),
    "",
    ...grid,
    ...(grid.length === 0 ? [] : [...keyLines(map, width).map((line) => paint("dim", line)), ""]),
    ...edgeSentences(map).flatMap((says) => wrap(says, width, 2)),
    "",
    ...wrap(caution(cabinet.circuit), width).map((line) => paint("dim", line)),
  ];
}

/** One dip for a person, as lines. */
export function oneDipText(cabinet: Cabinet, dip: DipOutcome, screen: Screen): string[] {
  const { width } = screen;
  const paint = painter(screen.colour);
  const back = dip.back_s.flatMap(({ part, after_s }) =>
    after_s === null
      ? []
      : [`${part}: back ${after_s < 0 ? "within the dip" : `${length(after_s)} after it`}.`],
  );
  return [
    ...verdictLines(dip.verdict, dipSays(dip), width, paint, "bold"),
    ...wrap(cabinet.title, width).map((line) => paint("dim", line)),
    ...(back.length === 0 ? [] : ["", ...back]),
    "",
    ...wrap(caution(cabinet.circuit), width).map((line) => paint("dim", line)),
  ];
}

/** Why there is no map. */
export const noDipsText = ({ title, skipped }: NoDips, { width, colour }: Screen): string[] => [
  ...verdictLines("pass", `No dips to try. ${skipped}`, width, painter(colour), "bold"),
  ...wrap(title, width),
];
