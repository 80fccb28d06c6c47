import type { Leg } from "@startgap/circuit";
import type { PartKind } from "../parts/kind.ts";

/** A part as far as its nominal voltages are concerned; null where it could not be read. */
export interface Fed {
  readonly name: string;
  readonly fedBy: string | null;
  readonly leg: Leg;
  readonly kind: PartKind | null;
  readonly spec: unknown;
}

export interface Voltages {
  /** Nominal voltage at a part's input; at the supply, its own. Null where something upstream could not be read. */
  readonly input_V: ReadonlyMap<string, number | null>;
  /** Nominal voltage at an output of a part, null for a part that is not there or not known. */
  readonly output_V: (part: string, leg: Leg) => number | null;
}

/** Nominal voltages from the supply outwards, no load, by ratio alone; feeders must stand first. */
export function nominalVoltages(parts: readonly Fed[]): Voltages {
  const byName = new Map(parts.map((part) => [part.name, part]));
  const input_V = new Map<string, number | null>();
  const output_V = (name: string, leg: Leg): number | null => {
    const part = byName.get(name);
    const input = input_V.get(name) ?? null;
    if (part === undefined || part.kind === null || part.spec === undefined) return null;
    if (part.kind.output_V === undefined) return input;
    return part.fedBy !== null && input === null ? null : part.kind.output_V(part.spec, input ?? 0, leg);
  };
  for (const part of parts) {
    input_V.set(
      part.name,
      part.fedBy === null ? output_V(part.name, "both") : output_V(part.fedBy, part.leg),
    );
  }
  return { input_V, output_V };
}
