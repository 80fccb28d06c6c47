import type { Circuit } from "@startgap/circuit";
import { seconds } from "../words.ts";
import { cycling, joinedTo, overVoltage, stalled } from "./dangers.ts";
import type { Failure } from "./kinds.ts";
import type { FailureGravity, FailureKind, FailureMoment, FailureRow } from "./results.ts";

/** What to change, by what fails. */
const CHANGES: Readonly<Record<FailureKind, string>> = {
  "one line open":
    "Put a disconnect that opens both lines ahead of it and a blown-fuse light on each fuse, and prove dead before touching.",
  "winding open":
    "Give what it feeds an over-voltage relay or a supply of its own, and check the winding's joints for heat after commissioning.",
  "midpoint open":
    "Make the midpoint one crimped, checked joint without a switch or fuse in it, and give sensitive loads an over-voltage relay.",
  "contact stays open": "Keep a spare, and put a lamp behind the contact that shows it has closed.",
  "contact stays closed":
    "Give the motors a disconnect that can be locked, and do not rely on this contact alone to stop them.",
  "start winding stays in":
    "Give the motor a thermal protector or an overload relay that opens within seconds of a stall.",
};

const MOTOR_WINDING =
  "Give the motor a thermal protector or an overload relay that opens before its winding is lost.";
const RELAY_STUCK =
  "Choose a relay that fails open, or fuses, wire and contactor that bear both motors starting together.";

const changeFor = (circuit: Circuit, { part, kind }: Failure): string => {
  const p = circuit.parts.find(({ name }) => name === part);
  if (kind === "winding open" && p?.is === "motor") return MOTOR_WINDING;
  if (kind === "contact stays closed" && p?.is === "delay relay") return RELAY_STUCK;
  return CHANGES[kind];
};

/** The failed cabinet's own course, told by the first moment in which it has one. */
function course(moments: readonly FailureMoment[]): string {
  const of = moments.find(({ chatters, next }) => chatters !== null || next.length > 0);
  if (of === undefined) return "nothing opens next";
  if (of.chatters !== null) return `${of.chatters} opens and closes without end`;
  const opening = of.next.find(({ what }) => what === "melts" || what === "opens");
  const start = of.moment === "at the next start" ? " at the next start" : "";
  if (opening !== undefined) return `${opening.part} ${opening.what}${start} after ${seconds(opening.at_s)}`;
  return of.meltsLater === null
    ? "nothing opens next"
    : `${of.meltsLater.part} melts after ${seconds(of.meltsLater.at_s)}`;
}

/** A welded contactor shows nothing, and nothing it feeds can be stopped by it. */
const cannotStop = (circuit: Circuit, { part, kind }: Failure): string | null => {
  const p = circuit.parts.find(({ name }) => name === part);
  return kind === "contact stays closed" && p?.is === "contactor"
    ? "what it feeds runs on when it is told to stop, and starts by itself when power returns"
    : null;
};

const burns = ({ kind }: Failure): string | null =>
  kind === "start winding stays in" ? "its start winding, made for seconds, stays in circuit" : null;

/** Judges one failure from its moments. `live` has what keeps voltage between its wires. */
export function rowOf(
  circuit: Circuit,
  failure: Failure,
  moments: readonly FailureMoment[],
  live: ReadonlySet<string>,
): FailureRow {
  const joined = joinedTo(circuit, failure, live);
  const looks =
    joined.length === 0 || failure.kind !== "one line open"
      ? null
      : "what is behind it looks dead but one wire still joins it to the supply";
  const dangers = [
    overVoltage(moments),
    looks,
    burns(failure),
    cycling(moments),
    stalled(moments),
    cannotStop(circuit, failure),
  ].filter((danger) => danger !== null);
  const silent = moments.every(({ tells }) => tells.length === 0);
  const says = [
    ...dangers,
    ...(dangers.length > 0 && course(moments) === "nothing opens next" && stalled(moments) !== null
      ? []
      : [course(moments)]),
    ...(silent ? ["nothing tells"] : []),
  ];
  return {
    part: failure.part,
    kind: failure.kind,
    failure: failure.failure,
    moments,
    live: circuit.parts.filter((p) => live.has(p.name)).map((p) => p.name),
    joined,
    gravity: gravityOf(dangers, moments, silent),
    says: `When ${failure.failure}: ${says.join("; ")}.`,
    change: changeFor(circuit, failure),
  };
}

function gravityOf(
  dangers: readonly string[],
  moments: readonly FailureMoment[],
  silent: boolean,
): FailureGravity {
  if (dangers.length > 0) return "danger";
  if (silent) return "unnoticed";
  const stops = moments.some(
    ({ last, chatters }) => chatters !== null || last.points.some(({ state }) => state === "dead"),
  );
  return stops ? "stops work" : "slight";
}

const ORDER: readonly FailureGravity[] = ["danger", "stops work", "unnoticed", "slight"];

/** Danger first; equals in the order of the cabinet. */
export const byGravity = (rows: readonly FailureRow[]): FailureRow[] =>
  [...rows].sort((a, b) => ORDER.indexOf(a.gravity) - ORDER.indexOf(b.gravity));
