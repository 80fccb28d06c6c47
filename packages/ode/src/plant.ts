/**
 * What is integrated. A plant is smooth within a mode; everything sudden is an event that its reducer turns
 * into a new state and mode. It never sees a step size, and the solver never sees what it is made of.
 *
 * `M` is the mode: discrete data that is frozen within an arc.
 */
export interface Plant<M> {
  /** One name a state, for messages: "rotor speed of pump 1". */
  readonly stateNames: readonly string[];
  /** Writes dy/dt; must not keep or change `y`. */
  derivative(t: number, y: readonly number[], mode: M, rate: number[]): void;
  /** The conditions watched in this mode. Their order never changes an answer. */
  guards(mode: M): readonly Guard[];
  /** Writes the value of every guard of `guards(mode)`, in that order. */
  guardValues(t: number, y: readonly number[], mode: M, values: Float64Array): void;
  /** Known times in this mode: stops, never root finds. */
  scheduled(mode: M): readonly Event[];
  /** True when this mode can still raise the event: asked of the later ones of one moment. */
  raises?(event: Event, mode: M): boolean;
  /** What an event makes of the state. Pure. */
  reduce(event: Event, y: readonly number[], mode: M): Jump<M> | "stop";
  /** How the plant moves from here to any later time of this mode, when it knows; null when it does not. */
  readonly rest?: Rest<M>;
}

/** A condition on the state: the event `name` happens as its value passes zero in `direction`. */
export interface Guard {
  readonly name: string;
  readonly direction: "rising" | "falling";
  /**
   * True: the event also happens at once when an arc begins on the far side of zero, as for a voltage
   * that jumps past a threshold. False: only a passage counts, as for a ball that leaves the floor.
   */
  readonly level: boolean;
}

export interface Event {
  readonly name: string;
  readonly t: number;
}

export interface Jump<M> {
  readonly y: readonly number[];
  readonly mode: M;
}

/**
 * The closed form of a plant whose stiff or costly states have all but stopped moving. An explicit
 * integrator is held to short steps by states that no longer change; the closed form is not.
 */
export type Rest<M> = (t0: number, y0: readonly number[], mode: M, tolerance: number) => Flow | null;

/** Writes y(t) for t >= t0 of the standing it was made for. */
export type Flow = (t: number, y: number[]) => void;
