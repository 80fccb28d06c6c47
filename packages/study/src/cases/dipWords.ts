import { percent } from "../words.ts";
import type { DipOutcome } from "./dipResults.ts";

const and = (names: readonly string[]): string => names.join(" and ");

/** "relay lets go", "relay and timer let go" */
const does = (names: readonly string[], one: string, many: string): string =>
  `${and(names)} ${names.length === 1 ? one : many}`;

const length = (t: number): string => (t < 1 ? `${Math.round(1000 * t)} ms` : `${Number(t.toFixed(1))} s`);

const restarts: Readonly<Record<DipOutcome["end"], string>> = {
  holds: "every motor runs on",
  together: "all restart together",
  staggered: "the restart is staggered",
  alone: "it restarts",
  "stays off": "not all come back",
  chatters: "contacts open and close without end",
};

/** What the heads add to the restart. */
const heads = ({ loaded }: DipOutcome): string =>
  loaded.length === 0 ? "" : `, ${and(loaded)} against full head`;

function troubles({ stalled, melted, chatters, fellBack }: DipOutcome): string[] {
  return [
    ...(fellBack.length > 0
      ? [does(fellBack, "falls back onto its start winding", "fall back onto their start windings")]
      : []),
    ...(stalled.length > 0 ? [does(stalled, "does not come up", "do not come up")] : []),
    ...(melted.length > 0 ? [does(melted, "melts", "melt")] : []),
    ...(chatters.length > 0 ? [does(chatters, "chatters", "chatter")] : []),
  ];
}

function devices({ letGo, reset, lockedOut, end }: DipOutcome): string[] {
  if (letGo.length + reset.length + lockedOut.length === 0) return [];
  const keeps = end === "together" && reset.length === 0 ? ["the delay is not counted again"] : [];
  return [
    ...(letGo.length > 0 ? [does(letGo, "lets go", "let go")] : []),
    ...(reset.length > 0 ? [does(reset, "loses its count", "lose their count")] : keeps),
    ...(lockedOut.length > 0 ? [does(lockedOut, "locks out", "lock out")] : []),
  ];
}

/** "A dip to 40 % for 60 ms"; what is gone for long is no dip. */
const dipOf = ({ left, length_s }: DipOutcome): string =>
  left === 0 && length_s >= 1
    ? `Without power for ${length(length_s)}`
    : `A dip to ${percent(100 * left)} for ${length(length_s)}`;

/** A dip in one sentence: "A dip to 0 % for 60 ms: contactor lets go, ...: all restart together." */
export function dipSays(outcome: DipOutcome): string {
  const told = [...devices(outcome), `${restarts[outcome.end]}${heads(outcome)}`, ...troubles(outcome)];
  return `${dipOf(outcome)}: ${told.join("; ")}.`;
}
