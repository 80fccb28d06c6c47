/** How well a value is known: typed in ohms, read off a plate, measured on site, from a table, or assumed. */
export type Grade = "stated" | "plate" | "measured" | "table" | "assumed";

/** One value the file did not state: what was taken, how well it is known and from where. */
export interface Assumption {
  /** Name of the part it belongs to. */
  readonly part: string;
  /** Plain words: "rotor inertia". */
  readonly what: string;
  /** The value as text with its unit: "0.0055 kg m2". */
  readonly value: string;
  /** Plausible low and high as text, when they are known: "0.0033 to 0.0088 kg m2". */
  readonly range: string | null;
  readonly grade: Grade;
  /** Where it comes from: a standard with its clause, a table, or "common practice, no source". */
  readonly basis: string;
}

/** A value worked out from less than the circuit, with what was assumed on the way. */
export interface Derived<T> {
  readonly value: T;
  readonly assumptions: readonly Assumption[];
}
