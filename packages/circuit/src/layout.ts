import { type Contacts, contactsOf } from "./contacts.ts";
import { type ControlPlacement, controlStatesOf } from "./controls.ts";
import type { Leg } from "./conventions.ts";
import type { Placement } from "./model.ts";
import { type Circuit, outputs_V, type PartParameters, statesOf } from "./parts.ts";

/** A circuit with a number for every node and state: the tree the walks go along. */
export interface Layout {
  readonly circuit: Circuit;
  readonly places: readonly Placement[];
  /** Places of what the coils of contactors draw, behind parts and controls. */
  readonly burdens: readonly Burden[];
  readonly controls: readonly ControlPlacement[];
  readonly contacts: Contacts;
  /** Index of the feeding part; -1 for the supply. */
  readonly feeders: readonly number[];
  readonly nodes: number;
  readonly states: number;
  /** No-load voltage of every node. */
  readonly nominal_V: readonly number[];
  /** Node at which a part's voltage is told: its output, or its terminals for a load or motor. */
  readonly told: readonly number[];
}

/** What one coil draws, and the contactor that it works. */
export interface Burden {
  readonly contactor: number;
  readonly place: Placement;
}

const legs: readonly Leg[] = ["first", "second", "both"];

/**
 * Numbers the nodes and states of a circuit.
 *
 * @throws RangeError when a part stands before its feeder or its feeder has no output: readers of files
 *   must have refused that with a place.
 */
export function layoutOf(circuit: Circuit): Layout {
  const controls = circuit.controls ?? [];
  const contacts = contactsOf([...circuit.parts, ...controls].map((p) => p.name));
  const partOf = contacts.indexOf;
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
    places.push({ part, at, out, state: states, frequency_Hz, nominal_V: own_V, nodeOf, partOf, contacts });
    states += statesOf(p);
  });
  const first = places.map((place) => place.state);
  for (const p of controls) {
    first.push(states);
    states += controlStatesOf(p);
  }
  const stateOf = (name: string): number => first[contacts.indexOf(name)];
  const told = places.map((place) => place.out[0] ?? place.at);
  return {
    circuit,
    places,
    burdens: burdensOf(circuit, places),
    controls: controls.map((_, k) => {
      const at = places.length + k;
      const nominalOf = (node: number): number => nominal_V[node];
      return { circuit, index: at, state: first[at], contacts, stateOf, nodeOf, nominalOf };
    }),
    contacts,
    feeders,
    nodes: nominal_V.length,
    states,
    nominal_V,
    told,
  };
}

function burdensOf(circuit: Circuit, places: readonly Placement[]): Burden[] {
  const behind = places.length + (circuit.controls?.length ?? 0);
  const burdened = circuit.parts.flatMap((p, contactor) => {
    if (p.is !== "contactor" || !p.coil?.burden) return [];
    const place = places[contactor];
    return [{ contactor, place: { ...place, at: place.nodeOf(p.coil.fedBy, p.coil.leg), out: [] } }];
  });
  return burdened.map((one, k) => ({ ...one, place: { ...one.place, part: behind + k } }));
}

function frequencyOf(circuit: Circuit): number {
  const supply: PartParameters | undefined = circuit.parts[0];
  if (supply?.is !== "supply") throw new RangeError("invalid circuit: its first part is not a supply");
  return supply.frequency_Hz;
}
