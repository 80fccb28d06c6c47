import type { Circuit, DelayRelayParameters, PartParameters, Script } from "@startgap/circuit";

/** A relay that holds a motor back. */
export interface Hold {
  readonly name: string;
  /** Its delay when the story's clock starts with the first motor. */
  readonly stated_s: number;
  /** True when the first motor is behind it: it closes at 0 s in every story. */
  readonly leads: boolean;
  /** How much later it closes for every second by which the second motor is held back longer. */
  readonly share: number;
}

/** What a cabinet has to stagger with. */
export interface Stagger {
  /** Relays with a motor behind them. */
  readonly holds: readonly Hold[];
  /** True when relays hold motors back; false where each motor is worked by a contact of its own. */
  readonly byRelay: boolean;
  /** Names of motors in the order of the file. */
  readonly motors: readonly string[];
  /** The motor that starts first as the file has it. */
  readonly first: string;
  /** True when there is anything to hold back. */
  readonly possible: boolean;
  /** From the first motor's closing to the second's as the file states it; null when no relay does. */
  readonly stated_s: number | null;
  /** From the first motor's closing to the last one's as the file states it. */
  readonly longest_s: number;
  /** By motor: from the first motor's closing to its own as the file states it. */
  readonly closings_s: ReadonlyMap<string, number>;
  /** Names of everything that is not switched on before the second start. */
  readonly heldBack: ReadonlySet<string>;
}

/**
 * Finds what holds the motors of a circuit back.
 *
 * The story's clock starts as the first motor closes: where that motor has a relay ahead of it too, this
 * relay's time is taken off the others'. A relay without a motor behind it keeps to its file.
 */
export function staggerOf(circuit: Circuit): Stagger {
  const ahead = relaysAhead(circuit.parts);
  const motors = circuit.parts.filter((p) => p.is === "motor").map((p) => p.name);
  const stated = (motor: string): number => total(ahead.get(motor) ?? []);
  const first = motors.reduce((a, b) => (stated(b) < stated(a) ? b : a), motors[0] ?? "");
  const leading = ahead.get(first) ?? [];
  const holding = new Set(motors.flatMap((motor) => ahead.get(motor) ?? []));
  const closings = motors.map((motor) => stated(motor) - total(leading));
  const later = closings.filter((closing) => closing > 0);
  const stated_s = later.length > 0 ? Math.min(...later) : null;
  const own_s = (relay: DelayRelayParameters): number =>
    ownDelay_s(relay, ahead.get(relay.name) ?? [], leading);
  const holds = [...holding].map((relay) => ({
    name: relay.name,
    stated_s: own_s(relay),
    leads: leading.includes(relay),
    share: [...(ahead.get(relay.name) ?? []), relay]
      .filter((one) => holding.has(one) && !leading.includes(one))
      .reduce((sum, one) => sum + (stated_s === null ? 1 : own_s(one) / stated_s), 0),
  }));
  const waits = holds.filter((hold) => !hold.leads && (stated_s === null || hold.stated_s > 0));
  return {
    holds,
    byRelay: waits.length > 0,
    motors,
    first,
    possible: motors.length > 1,
    stated_s,
    longest_s: Math.max(0, ...closings),
    closings_s: new Map(motors.map((name, i) => [name, closings[i]])),
    heldBack: new Set(waits.length > 0 ? behind(waits, ahead) : motors.slice(1)),
  };
}

const total = (relays: readonly DelayRelayParameters[]): number =>
  relays.reduce((sum, relay) => sum + relay.delay_s, 0);

/** By name of part: every relay between the supply and it, from the supply on. */
function relaysAhead(parts: readonly PartParameters[]): Map<string, readonly DelayRelayParameters[]> {
  const at = new Map<string, readonly DelayRelayParameters[]>();
  const through = new Map<string, readonly DelayRelayParameters[]>();
  for (const p of parts) {
    const before = p.is === "supply" ? [] : (through.get(p.fedBy) ?? []);
    at.set(p.name, before);
    through.set(p.name, p.is === "delay relay" ? [...before, p] : before);
  }
  return at;
}

/** A relay's delay less what the first motor waits for by itself, taken off once on every way. */
function ownDelay_s(
  relay: DelayRelayParameters,
  before: readonly DelayRelayParameters[],
  leading: readonly DelayRelayParameters[],
): number {
  if (leading.includes(relay)) return 0;
  if (before.some((other) => !leading.includes(other))) return relay.delay_s;
  return Math.max(0, relay.delay_s - (total(leading) - total(before)));
}

/** Everything that one of these relays is ahead of. */
function behind(
  waits: readonly Hold[],
  ahead: ReadonlyMap<string, readonly DelayRelayParameters[]>,
): readonly string[] {
  const names = new Set(waits.map((hold) => hold.name));
  return [...ahead].flatMap(([part, relays]) => (relays.some(({ name }) => names.has(name)) ? [part] : []));
}

/**
 * The story in which the second motor closes `delay_s` after the first; later ones keep their proportion to
 * it. In a cabinet without a relay, each further motor is connected one delay after the one before it.
 *
 * `delay_s` 0 starts everything together; Infinity starts the first alone.
 */
export function scriptFor(stagger: Stagger, delay_s: number): Script {
  const { stated_s: shortest } = stagger;
  const own = new Map(stagger.holds.map((hold) => [hold.name, hold]));
  const place = new Map(stagger.motors.map((name, i) => [name, i]));
  const byHand = (index: number): number => (index === 0 ? 0 : index * delay_s);
  return {
    delay_s(relay, stated_s) {
      const hold = own.get(relay);
      if (hold === undefined) return stated_s;
      if (hold.leads) return 0;
      if (shortest === null) return delay_s;
      return hold.stated_s === 0 ? 0 : delay_s * (hold.stated_s / shortest);
    },
    connects_s: (motor) => (stagger.byRelay ? 0 : byHand(place.get(motor) ?? 0)),
  };
}

/** The story of two motors the other way round: the second starts at 0 s, the first `delay_s` later. */
export function otherWayRound(stagger: Stagger, delay_s: number): Script {
  const own = new Set(stagger.holds.map((hold) => hold.name));
  return {
    delay_s: (relay, stated_s) => (own.has(relay) ? 0 : stated_s),
    connects_s: (motor) => (motor === stagger.first ? delay_s : 0),
  };
}

/** Delay of the staggered case when neither the file nor the caller states one. */
const USUAL_DELAY_s = 6;

/** The delay of the staggered case: as asked, else as the file states it, else the usual one. */
export const delayFor = ({ stated_s }: Stagger, asked_s: number | undefined): number =>
  asked_s ?? stated_s ?? USUAL_DELAY_s;

/** When the last motor is switched on in that story. */
export function lastStart_s(stagger: Stagger, delay_s: number): number {
  if (!stagger.possible || delay_s === Number.POSITIVE_INFINITY) return 0;
  if (!stagger.byRelay) return delay_s * (stagger.motors.length - 1);
  return stagger.stated_s === null ? delay_s : (delay_s * stagger.longest_s) / stagger.stated_s;
}
