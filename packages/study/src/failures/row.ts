import type { Circuit } from "@startgap/circuit";
import { cycling, joinedTo, lasting, overVoltage, stalled } from "./dangers.ts";
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
  "contact stays open": "Keep a spare, and put a lamp behind it that shows it has closed.",
  "contact stays closed":
    "Give the motors a disconnect that can be locked, and do not rely on this contact alone to stop them.",
  "start winding stays in":
    "Give the motor a thermal protector or an overload relay that opens within seconds of a stall.",
};

const SPARE = "Keep a spare, and put a lamp on its output that shows it is live.";
const MOTOR_WINDING =
  "Give the motor a thermal protector or an overload relay that opens before its winding is lost.";
const SWITCH_STUCK =
  "Test the relief valve, and put a second pressure switch in series that opens a little later.";
const RELAY_STUCK =
  "Choose a relay that fails open, or fuses, wire and contactor that bear both motors starting together.";

const changeFor = (circuit: Circuit, { part, kind }: Failure): string => {
  const p = circuit.parts.find(({ name }) => name === part);
  if (kind === "winding open" && p?.is === "motor") return MOTOR_WINDING;
  if (kind === "winding open" && p?.is === "transformer") return SPARE;
  if (kind === "contact stays closed" && p?.is === "delay relay") return RELAY_STUCK;
  const control = circuit.controls?.find(({ name }) => name === part);
  if (kind === "contact stays closed" && control?.is === "pressure switch") return SWITCH_STUCK;
  return CHANGES[kind];
};

const start = (moment: FailureMoment["moment"]): string =>
  moment === "while running" ? "" : " at the next start";

/** What opens next, told by the first moment in which anything does. */
function course(moments: readonly FailureMoment[]): string {
  for (const { moment, chatters, next, meltsLater } of moments) {
    if (chatters !== null) return `${chatters} opens and closes without end`;
    const opening = next.find(({ what }) => what === "melts" || what === "opens") ?? meltsLater;
    if (opening !== null && opening !== undefined)
      return `next to open: ${opening.part}, after ${lasting(opening.at_s)}${start(moment)}`;
  }
  return "nothing opens next";
}

/** A contact that cannot open shows nothing, and nothing that it works can be stopped by it. */
function cannotStop(circuit: Circuit, { part, kind }: Failure): string | null {
  if (kind !== "contact stays closed") return null;
  const one = [...circuit.parts, ...(circuit.controls ?? [])].find(({ name }) => name === part);
  if (one?.is === "contactor")
    return "what it feeds runs on when it is told to stop, and starts by itself when power returns";
  return one?.is === "pressure switch"
    ? "past its cut-out only another switch in series or the relief valve is left"
    : null;
}

const burns = ({ kind }: Failure): string | null =>
  kind === "start winding stays in" ? "its start winding, made for seconds, stays in circuit" : null;

/** The sound cabinet, which a failure is held against. */
export interface Usual {
  readonly circuit: Circuit;
  /** Highest voltage at every point that is watched, in its story. */
  readonly highest_V: readonly number[];
}

/** Judges one failure from its moments. `live` has what keeps voltage between its wires. */
export function rowOf(
  { circuit, highest_V }: Usual,
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
    overVoltage(moments, highest_V),
    looks,
    burns(failure),
    cycling(moments),
    stalled(moments),
    cannotStop(circuit, failure),
  ].filter((danger) => danger !== null);
  const silent = moments.every(({ tells }) => tells.length === 0);
  const says = [...dangers, course(moments), ...(silent ? ["nothing tells"] : [])];
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
