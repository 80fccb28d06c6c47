import { type Circuit, currentInto, type Leg, type LoadParameters, plantOf } from "@startgap/circuit";
import { allClosed, firstImpedance } from "./closed.ts";

/** A bolted fault somewhere in a cabinet, everything else switched off. */
export interface Fault {
  /** In the fault itself. */
  readonly current_A: number;
  /** Into a part by name: less ahead of a transformer than behind it. */
  readonly through_A: (part: string) => number;
}

/** A fault current this large says that the file does not tell the impedance ahead of it. */
export const NOT_TOLD_A = 1e6;

/** A fault is this much of an impedance, ohm: nothing beside any wire. */
const BOLTED_ohm = 1e-7;
const FAULT = "\u0000fault";

/**
 * The steady current of a bolted fault between the two wires at an output, by the same circuit.
 *
 * @param at part and leg at whose output the wires meet; behind the part's own impedance
 * Limitation: no direct component, no feeding back by motors, no heating of the wires; each of them is smaller than
 * what is not known of the supply.
 */
export function faultAt(circuit: Circuit, at: { readonly part: string; readonly leg: Leg }): Fault {
  const sound = allClosed(circuit);
  const parts = sound.parts
    .filter((p) => p.is !== "motor" && p.is !== "load")
    .map((p) => (p.is === "supply" ? firstImpedance(p) : p));
  const [supply] = sound.parts;
  const nominal_V = supply.is === "supply" ? supply.voltage_V : 0;
  const bolted: LoadParameters = {
    is: "load",
    name: FAULT,
    fedBy: at.part,
    leg: at.leg,
    nominal_V,
    power_W: nominal_V ** 2 / BOLTED_ohm,
    reactive_var: 0,
    holds: "impedance",
  };
  const plant = plantOf({ title: sound.title, parts: [...parts, bolted] });
  const { y, mode } = plant.start();
  const walk = plant.solve(y, mode);
  const through = new Map(plant.layout.circuit.parts.map((p, i) => [p.name, currentInto(walk, i)]));
  const through_A = (part: string): number => through.get(part) ?? 0;
  return { current_A: through_A(FAULT), through_A };
}
