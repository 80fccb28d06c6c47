import type { Circuit, DelayRelayParameters, Script } from "@startgap/circuit";

/** What a cabinet has to stagger with. */
export interface Stagger {
  readonly relays: readonly DelayRelayParameters[];
  /** Names of motors in the order of the file. */
  readonly motors: readonly string[];
  /** True when there is anything to hold back. */
  readonly possible: boolean;
  /** The delay that the file states; null when no relay does. */
  readonly stated_s: number | null;
}

export function staggerOf(circuit: Circuit): Stagger {
  const relays = circuit.parts.filter((p) => p.is === "delay relay");
  const motors = circuit.parts.filter((p) => p.is === "motor").map((p) => p.name);
  const stated = relays.map((relay) => relay.delay_s).filter((delay) => delay > 0);
  return {
    relays,
    motors,
    possible: motors.length > 1,
    stated_s: stated.length > 0 ? Math.min(...stated) : null,
  };
}

/**
 * The story in which the shortest relay delay is `delay_s`; other relays keep their proportion to it. In a
 * cabinet without a relay, each further motor is connected one delay after the one before it.
 *
 * `delay_s` 0 starts everything together; Infinity starts the first alone.
 */
export function scriptFor(stagger: Stagger, delay_s: number): Script {
  const shortest = stagger.stated_s ?? 0;
  const scaled = (stated_s: number): number => {
    if (delay_s === Number.POSITIVE_INFINITY || delay_s === 0) return delay_s;
    return shortest > 0 && stated_s > 0 ? (delay_s * stated_s) / shortest : delay_s;
  };
  const place = new Map(stagger.motors.map((name, i) => [name, i]));
  const ownDelay = (index: number): number => (index === 0 ? 0 : index * delay_s);
  return {
    delay_s: (_, stated_s) => scaled(stated_s),
    connects_s: (motor) => (stagger.relays.length > 0 ? 0 : ownDelay(place.get(motor) ?? 0)),
  };
}

/** When the last motor is switched on in that story. */
export function lastStart_s(stagger: Stagger, delay_s: number): number {
  if (!stagger.possible || delay_s === Number.POSITIVE_INFINITY) return 0;
  if (stagger.relays.length === 0) return delay_s * (stagger.motors.length - 1);
  const shortest = stagger.stated_s ?? 0;
  const longest = Math.max(...stagger.relays.map((relay) => relay.delay_s));
  return shortest > 0 ? (delay_s * longest) / shortest : delay_s;
}
