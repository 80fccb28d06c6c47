import type { Circuit, PartParameters } from "@startgap/circuit";
import { amperes, percent, seconds, volts } from "../words.ts";
import { isBehind } from "./alter.ts";
import type { Failure } from "./kinds.ts";
import type { FailureMoment, FailureMotor, FailurePoint } from "./results.ts";

/** A motor standing still under voltage is to be off within so long, s: common practice, no source. */
const STALL_s = 5;
const STANDS_rpm = 60;

/** A time that may be long, in words. */
export const lasting = (t: number): string => (t < 600 ? seconds(t) : `${Math.round(t / 60)} min`);

const when = (moment: FailureMoment): string =>
  moment.moment === "while running" ? "" : " at the next start";

/** More than this share of nominal is told as danger: NEMA MG 1 12.44 allows motors 10 %, ITI (CBEMA) electronics too. */
const TOO_MUCH = 1.1;

/** What the sound cabinet shows too, a generator after a start, is not the failure's doing. */
const BEYOND_USUAL = 1.02;

const nameOf = ({ part, is }: FailurePoint): string => (is === "coil" ? `the coil of ${part}` : part);

/**
 * Everything that is driven more than a tenth above what it is made for, worst first; null when nothing is.
 *
 * @param usual_V highest voltage at the same points in the sound cabinet
 */
export function overVoltage(moments: readonly FailureMoment[], usual_V: readonly number[]): string | null {
  const worst = new Map<string, { point: FailurePoint; share: number }>();
  for (const { first, highest_V } of moments) {
    first.points.forEach((point, k) => {
      const share = highest_V[k] / point.nominal_V;
      const usual = (BEYOND_USUAL * usual_V[k]) / point.nominal_V;
      const before = worst.get(nameOf(point))?.share ?? Math.max(TOO_MUCH, usual);
      if (share > before) worst.set(nameOf(point), { point, share });
    });
  }
  if (worst.size === 0) return null;
  const said = [...worst.values()]
    .sort((a, b) => b.share - a.share)
    .map(
      ({ point, share }) => `${volts(share * point.nominal_V)} on ${nameOf(point)} (${percent(100 * share)})`,
    );
  return `up to ${said.join(", ")}`;
}

/** A motor that stands still under voltage for longer than it bears; null when none does. */
export function stalled(moments: readonly FailureMoment[]): string | null {
  for (const moment of moments) {
    const { last, chatters, meltsLater } = moment;
    if (chatters !== null || (meltsLater !== null && meltsLater.at_s <= STALL_s)) continue;
    const still = last.motors.find((motor) => stands(motor, last.points));
    if (still !== undefined)
      return `${still.part} stands still and draws ${amperes(still.current_A)}${when(moment)}`;
  }
  return null;
}

function stands(motor: FailureMotor, points: FailureMoment["last"]["points"]): boolean {
  const point = points.find(({ part }) => part === motor.part);
  return motor.speed_rpm < STANDS_rpm && motor.current_A > 0.1 && point?.state !== "dead";
}

/** A motor whose start winding comes back again and again; null when none does. */
export function cycling(moments: readonly FailureMoment[]): string | null {
  for (const moment of moments) {
    if (moment.chatters !== null) continue;
    const closing = moment.next.filter(({ what }) => what === "start switch closes");
    const again = closing.find(({ part }, i) => closing.some((other, j) => j < i && other.part === part));
    if (again !== undefined) return `${again.part} drops back and its start winding comes in over and over`;
  }
  return null;
}

/** True when one wire from the supply still reaches a part through the failed link: no transformer stands between. */
function joinedBy(circuit: Circuit, p: PartParameters, link: string): boolean {
  if (p.name === link || !isBehind(circuit, p, link)) return false;
  const between = circuit.parts.filter((one) => one.is === "transformer" && one.name !== link);
  return !between.some(
    (t) => isBehind(circuit, t, link) && isBehind(circuit, p, t.name) && p.name !== t.name,
  );
}

/** Parts that look dead behind a link that breaks only one of their wires. */
export function joinedTo(circuit: Circuit, failure: Failure, live: ReadonlySet<string>): string[] {
  if (failure.open !== failure.part && failure.stuck !== "open") return [];
  const dead = circuit.parts.filter((p) => !live.has(p.name));
  return dead.filter((p) => joinedBy(circuit, p, failure.part)).map((p) => p.name);
}
