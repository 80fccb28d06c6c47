import type { Leg } from "./conventions.ts";
import type { Placement } from "./model.ts";
import { type Circuit, outputs_V, type PartParameters, statesOf } from "./parts.ts";

/** A circuit with a number for every node and state: the tree the walks go along. */
export interface Layout {
  readonly circuit: Circuit;
  readonly places: readonly Placement[];
  /** Index of the feeding part; -1 for the supply. */
  readonly feeders: readonly number[];
  readonly nodes: number;
  readonly states: number;
  /** No-load voltage of every node. */
  readonly nominal_V: readonly number[];
  /** Node at which a part's voltage is told: its output, or its terminals for a load or motor. */
  readonly told: readonly number[];
}

const legs: readonly Leg[] = ["first", "second", "both"];

/**
 * Numbers the nodes and states of a circuit.
 *
 * @throws RangeError when a part stands before its feeder or its feeder has no output: readers of files
 *   must have refused that with a place.
 */
export function layoutOf(circuit: Circuit): Layout {
  const index = new Map(circuit.parts.map((p, i) => [p.name, i]));
  const outs: number[][] = [];
  const nominal_V: number[] = [];
  const places: Placement[] = [];
  const feeders: number[] = [];
  let states = 0;
  const nodeOf = (name: string, leg: Leg): number => {
    const out = outs[index.get(name) ?? -1];
    const node = out?.length === 3 ? out[legs.indexOf(leg)] : out?.[0];
    if (node === undefined)
      throw new RangeError(`invalid feeder: "${name}" (expected a part that feeds others)`);
    return node;
  };
  const frequency_Hz = frequencyOf(circuit);
  circuit.parts.forEach((p, part) => {
    const at = p.is === "supply" ? -1 : nodeOf(p.fedBy, p.leg);
    const fed_V = at < 0 ? 0 : nominal_V[at];
    const out = outputs_V(p, fed_V).map((v) => nominal_V.push(v) - 1);
    outs.push(out);
    feeders.push(p.is === "supply" ? -1 : (index.get(p.fedBy) ?? -1));
    const own_V = p.is === "supply" ? p.voltage_V : fed_V;
    places.push({ part, at, out, state: states, frequency_Hz, nominal_V: own_V, nodeOf });
    states += statesOf(p);
  });
  const told = places.map((place) => place.out[0] ?? place.at);
  return { circuit, places, feeders, nodes: nominal_V.length, states, nominal_V, told };
}

function frequencyOf(circuit: Circuit): number {
  const supply: PartParameters | undefined = circuit.parts[0];
  if (supply?.is !== "supply") throw new RangeError("invalid circuit: its first part is not a supply");
  return supply.frequency_Hz;
}
