import type { CaseReport, DelayAdvice, MotorResult } from "@startgap/study";
import { el } from "../dom.ts";
import type { Felt } from "./points.ts";

type Piece = string | HTMLElement;

/** A part's own name in a sentence: kept apart, whatever script it is in. */
const part = (name: string): HTMLElement => el("bdi", {}, name);

const paragraph = (...pieces: readonly Piece[]): HTMLElement => el("p", {}, ...pieces);

/** "a", "a and b", "a, b and c" */
function list(names: readonly string[]): Piece[] {
  return names.flatMap((name, i): Piece[] => {
    const joint = i === 0 ? "" : i === names.length - 1 ? " and " : ", ";
    return [joint, part(name)];
  });
}

const volts = (value: number): string => `${Math.round(value)} ${Math.round(value) === 1 ? "volt" : "volts"}`;

function seconds(value: number): string {
  const rounded = value >= 10 ? Math.round(value) : Number(value.toPrecision(2));
  return `${rounded} ${rounded === 1 ? "second" : "seconds"}`;
}

/** What is told: every case at the point that is looked at. */
export interface ClientFacts {
  readonly point: string;
  readonly one: Felt;
  /** Null where there is one motor. */
  readonly together: Felt | null;
  readonly staggered: Felt | null;
  readonly advice: DelayAdvice | null;
}

/** What a client needs to know, in sentences without symbols. */
export function clientSentences({ point, one, together, staggered, advice }: ClientFacts): HTMLElement[] {
  if (together === null || staggered === null) {
    const starts = paragraph(
      "When ",
      ...list(namesOf(one.report)),
      " starts, ",
      ...dip(one, point),
      ...trouble(one.report),
    );
    return [
      el("h3", {}, "When the motor starts"),
      starts,
      el("h3", {}, "What could be better"),
      paragraph(...limits(one, point)),
    ];
  }
  const { delay_s } = staggered.report;
  return [
    el("h3", {}, "When everything starts at once"),
    paragraph(
      "When ",
      ...list(namesOf(together.report)),
      " start at the same moment, ",
      ...dip(together, point),
      ...trouble(together.report),
    ),
    el("h3", {}, delay_s === 0 ? "With no delay set" : waiting(staggered.report, delay_s)),
    paragraph(
      delay_s === 0 ? "As before, " : "One start comes after the other: ",
      ...dip(staggered, point),
      ...trouble(staggered.report),
    ),
    el("h3", {}, "What the delay changes"),
    paragraph(...gains(together, staggered, advice)),
    el("h3", {}, "What the delay cannot change"),
    paragraph(...limits(one, point)),
  ];
}

const waiting = ({ motors }: CaseReport, delay_s: number): string =>
  motors.length > 2
    ? `When the others wait, the first of them ${seconds(delay_s)}`
    : `When the second motor waits ${seconds(delay_s)}`;

const namesOf = (report: CaseReport): string[] => report.motors.map((motor) => motor.part);

function dip({ lowest_V, nominal_V, below90_s, dimmest }: Felt, point: string): Piece[] {
  if (lowest_V >= 0.97 * nominal_V)
    return [
      "the voltage at ",
      part(point),
      ` stays at ${volts(lowest_V)} or more, which nobody will notice.`,
    ];
  const lasts = below90_s >= 0.05 ? ` The dip lasts ${seconds(below90_s)}.` : "";
  return [
    "the voltage at ",
    part(point),
    ` falls from ${volts(nominal_V)} to ${volts(lowest_V)}. Lamps there dim to about ${Math.round(100 * dimmest)} percent of their light.${lasts}`,
  ];
}

/** What goes wrong in a case, and whether the motors get going all the same. */
function trouble({ motors, fuses, contactors }: CaseReport): Piece[] {
  const stuck = motors.filter((motor) => motor.runUp_s === null);
  const blown = fuses.filter((fuse) => fuse.opened_s !== null);
  const loose = contactors.filter((contactor) => contactor.dropOuts > 0);
  const slowest = Math.max(0, ...motors.map((motor) => motor.runUp_s ?? 0));
  const all = motors.length > 1 ? "All motors come" : "The motor comes";
  return [
    ...loose.flatMap(({ part: name, dropOuts }): Piece[] => [
      dropOuts > 2 ? " The switching chatters: " : " The switching lets go: ",
      part(name),
      ` drops out ${times(dropOuts)}, and everything after it loses its supply.`,
    ]),
    ...blown.flatMap((fuse): Piece[] => [" ", part(fuse.part), " blow: the fuse is lost."]),
    ...stuck.flatMap((motor): Piece[] => [" ", part(motor.part), ` ${whyStuck(motor)}`]),
    stuck.length > 0
      ? ""
      : ` ${all} up to speed${loose.length > 0 ? " in the end" : ""}, within ${seconds(slowest)} of being switched on.`,
  ];
}

const times = (count: number): string => (count === 1 ? "once" : `${count} times`);

function whyStuck({ outcome, closed_s }: MotorResult): string {
  if (closed_s === null) return "is never switched on.";
  if (outcome === "tripped") return "does not start, because a fuse ahead of it opens.";
  if (outcome === "off") return "is cut off before it is up to speed.";
  return outcome === "stalled" ? "hums and does not start." : "does not settle at its speed.";
}

function gains(together: Felt, staggered: Felt, advice: DelayAdvice | null): Piece[] {
  const gained = staggered.lowest_V - together.lowest_V;
  const lifts =
    gained < 1
      ? "Waiting makes next to no difference to the lowest voltage here."
      : `Waiting keeps ${volts(gained)} more at the worst moment: ${volts(staggered.lowest_V)} instead of ${volts(together.lowest_V)}.`;
  if (advice === null) return [lifts];
  const { shortest_s, knee_s } = advice;
  const room = roomWords(advice);
  const none = shortest_s === null ? " No delay alone keeps everything from failing." : "";
  const knee =
    knee_s === null || knee_s === 0
      ? ""
      : ` Past about ${seconds(knee_s)} a longer wait gains nothing worth having.`;
  return [lifts, room, none, knee];
}

/** From which delay on nothing fails, and what setting leaves room for the relay. */
function roomWords({ shortest_s, recommended_s, until_s }: DelayAdvice): string {
  if (shortest_s === null || shortest_s === 0) return "";
  const until = until_s ?? null;
  const passes =
    until === null
      ? ` Nothing fails once the second motor waits ${seconds(shortest_s)}`
      : ` Nothing fails while the second motor waits between ${seconds(shortest_s)} and ${seconds(until)}`;
  return recommended_s === null
    ? `${passes}.`
    : `${passes}; a setting of ${seconds(recommended_s)} leaves room for the relay's own error.`;
}

/** One motor's start alone is the best that any delay can do; where its volts are lost says what else could help. */
function limits(one: Felt, point: string): Piece[] {
  if (one.lowest_V >= 0.97 * one.nominal_V)
    return ["A single motor's start is hardly felt, so there is little left to gain."];
  const best: Piece[] = [
    "Even one motor starting alone takes the voltage at ",
    part(point),
    ` down to ${volts(one.lowest_V)}. No delay can do better than that.`,
  ];
  const taken = (one.report.worst?.shares ?? []).filter((share) => share.lost_V > 0);
  const most = [...taken].sort((a, b) => b.lost_V - a.lost_V)[0];
  if (most === undefined) return best;
  const all = taken.reduce((sum, share) => sum + share.lost_V, 0);
  const share = [
    " Of the ",
    `${volts(all)} lost on the way at the worst moment, `,
    part(most.part),
    ` takes ${volts(most.lost_V)}`,
  ];
  return [...best, ...share, ": that is where a change would help most."];
}
