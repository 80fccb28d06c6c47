import type { Event, Guard } from "@startgap/ode";
import type { Contacts } from "./contacts.ts";
import type { Leg } from "./conventions.ts";
import type { Script } from "./script.ts";
import type { Walk } from "./walk.ts";

/** Where a part stands in the tree, and in the arrays of the walk and of the state. */
export interface Placement {
  /** Index of the part. */
  readonly part: number;
  /** Node it is fed from; -1 for the supply. */
  readonly at: number;
  /** Nodes it feeds: one, or for two legs first, second, both. */
  readonly out: readonly number[];
  /** Index of its first state. */
  readonly state: number;
  readonly frequency_Hz: number;
  /** No-load voltage at its feeding node (for the supply, its own). */
  readonly nominal_V: number;
  /** Node of any part's output, by name. */
  readonly nodeOf: (name: string, leg: Leg) => number;
  /** Index of any part, by name. */
  readonly partOf: (name: string) => number;
  /** Which contacts are closed: shared by all models of one plant. */
  readonly contacts: Contacts;
}

/** Where the power that enters a part goes, watt. */
export interface PowerUse {
  readonly lost_W: number;
  readonly shaft_W: number;
  /** Rate of stored kinetic energy. */
  readonly stored_W: number;
  /** Power that leaves an electromotive force: the supply's alone. */
  readonly given_W?: number;
}

/** A source that gives no more than a current; the walk is repeated until it does not. */
export interface LimitedSource {
  /** What it gives while nothing limits it; 0 when it has shut down. */
  stiff_V(): number;
  limit_A(): number;
  /** Sets the voltage of the next walk. */
  give(volts: number): void;
  /** Told the current that its stiff voltage would drive. */
  asked(amperes: number): void;
}

/**
 * A part at work: what it folds, the states it owns, the events it raises and what it makes of them.
 * `S` is its mode, frozen data. The walks use the mode that was entered last.
 */
export interface PartModel<S = unknown> {
  readonly stateNames: readonly string[];
  readonly start: { readonly y: readonly number[]; readonly mode: S };
  /**
   * Indices of its own states that the network, or its way to rest, depends on: a motor's speed, a
   * generator's flux.
   */
  readonly network: readonly number[];
  /**
   * Sets its states to where they stand before a story, steady on what is live then, from the solved network;
   * tells by how much, relative. Null for a part that starts as `start` says.
   */
  readonly begin: ((w: Walk, y: number[]) => number) | null;
  /** For a supply that gives no more than a current; null for every other part. */
  readonly limited: LimitedSource | null;
  /** True when its admittance depends on its own voltage, so that the walk must be repeated. */
  readonly nonlinear: boolean;
  enter(mode: S): void;
  fold(w: Walk, y: readonly number[]): void;
  unfold(w: Walk, y: readonly number[]): void;
  /** For a nonlinear part, after unfolding: relative change its admittance still wants; adopts it. */
  adjust(w: Walk): number;
  rate(w: Walk, y: readonly number[], rate: number[]): void;
  guards(mode: S): readonly PartGuard[];
  guardValues(w: Walk, y: readonly number[], values: Float64Array, offset: number): void;
  scheduled(mode: S): readonly Event[];
  /** May change its own entries of `y`. */
  reduce(event: Event, y: number[], mode: S): S;
  /** False when an open contact or melted element cuts off what it feeds. */
  conducts(mode: S): boolean;
  power(w: Walk, y: readonly number[]): PowerUse;
  /** Steady drive of its states at the solved network, for closed-form motion; null for a part without. */
  readonly drive: ((w: Walk, y: readonly number[]) => number) | null;
  /**
   * Exact motion of its states under the drive end + change e^(-lambda t), after `dt`, from `y0`.
   */
  coast(end: number, change: number, lambda: number, y0: readonly number[], dt: number, y: number[]): void;
  /** The mode a script asks for: delays and contacts that the story works. */
  scripted(mode: S, script: Script): S;
}

export interface PartGuard extends Guard {
  /** True when its value needs the network's voltages or currents. */
  readonly electrical: boolean;
}

const none: readonly never[] = [];
const noPower: PowerUse = { lost_W: 0, shaft_W: 0, stored_W: 0 };

/** What most parts do not do: spread first, then say what this part does do. */
export const plain = {
  stateNames: none as readonly string[],
  start: { y: none as readonly number[], mode: null },
  network: none as readonly number[],
  begin: null,
  limited: null,
  nonlinear: false,
  enter: () => {},
  adjust: () => 0,
  rate: () => {},
  guards: () => none,
  guardValues: () => {},
  scheduled: () => none,
  reduce: () => null,
  conducts: () => true,
  power: () => noPower,
  drive: null,
  coast: () => {},
  scripted: <S>(mode: S): S => mode,
} satisfies Omit<PartModel<null>, "fold" | "unfold">;

/** Power lost in a resistance that carries the current into a part. */
export function lostInSeries(w: Walk, part: number, r_ohm: number): PowerUse {
  return { ...noPower, lost_W: r_ohm * (w.ir[part] ** 2 + w.ii[part] ** 2) };
}

/** The event name of a part: unique because part names are. */
export const eventName = (part: string, what: string): string => `${part}: ${what}`;
