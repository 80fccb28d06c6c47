import type {
  Cabinet,
  CableFacts,
  ContactorFacts,
  DelayRelayFacts,
  FuseFacts,
  MotorFacts,
} from "@startgap/cabinet";
import { HORSEPOWER_W, usualFullLoadCurrent_A } from "@startgap/cabinet";
import {
  type Circuit,
  type Leg,
  type MotorParameters,
  type PartParameters,
  plantOf,
} from "@startgap/circuit";
import { type Fault, faultAt } from "./fault.ts";
import type { Rules } from "./results.ts";
import { type Situations, situationsOf } from "./situations.ts";
import { type Consumer, type Tree, treeOf } from "./tree.ts";

/** Everything that a rule of protection reads. */
export interface Scene {
  readonly cabinet: Cabinet;
  readonly circuit: Circuit;
  readonly rules: Rules;
  readonly tree: Tree;
  readonly situations: Situations;
  /** No-load voltage at a part's input (the supply's own). */
  readonly nominal_V: (part: string) => number;
  /** Bolted fault at a part's output. */
  readonly faultBehind: (part: string, leg?: Leg) => Fault;
  /** Bolted fault where a part is fed: the most that can flow into it. */
  readonly faultBefore: (part: string) => Fault;
}

export function sceneOf(cabinet: Cabinet): Scene {
  const { circuit } = cabinet;
  const { layout } = plantOf(circuit);
  const index = new Map(circuit.parts.map((p, i) => [p.name, i]));
  const [supply] = circuit.parts;
  const known = new Map<string, Fault>();
  const faultBehind = (part: string, leg: Leg = "first"): Fault => {
    const key = `${leg} ${part}`;
    const found = known.get(key) ?? faultAt(circuit, { part, leg });
    known.set(key, found);
    return found;
  };
  return {
    cabinet,
    circuit,
    rules: supply.is === "supply" && supply.frequency_Hz > 55 ? "NEC" : "IEC 60364",
    tree: treeOf(circuit),
    situations: situationsOf(circuit),
    nominal_V: (part) => layout.places[index.get(part) ?? 0].nominal_V,
    faultBehind,
    faultBefore(part) {
      const p = circuit.parts[index.get(part) ?? 0];
      return p.is === "supply" ? faultBehind(p.name) : faultBehind(p.fedBy, p.leg);
    },
  };
}

export const partsOf = <K extends PartParameters["is"]>(
  { circuit }: Scene,
  is: K,
): Extract<PartParameters, { readonly is: K }>[] =>
  circuit.parts.filter((p): p is Extract<PartParameters, { readonly is: K }> => p.is === is);

type Known = CableFacts | FuseFacts | MotorFacts | ContactorFacts | DelayRelayFacts;

/** What the file tells of a part beyond its circuit; null where it tells nothing of that kind. */
export function factsOf<K extends Known["is"]>(
  { cabinet }: Scene,
  is: K,
  part: string,
): Extract<Known, { readonly is: K }> | null {
  const facts = cabinet.facts[part];
  return facts?.is === is ? (facts as Extract<Known, { readonly is: K }>) : null;
}

/**
 * Full-load current of a motor that wire and fuses are sized by: the code's table where its power is known and the
 * code is the NEC (430.6(A)), else its plate, else what it draws when it runs here.
 */
export function fullLoad_A(scene: Scene, p: MotorParameters): number {
  const facts = factsOf(scene, "motor", p.name);
  if (scene.rules === "NEC" && facts?.power_W != null && facts.voltage_V != null)
    return usualFullLoadCurrent_A(facts.power_W / HORSEPOWER_W, facts.voltage_V);
  return p.fullLoad_A ?? scene.situations.running.current_A(p.name);
}

const ownCurrent_A = (scene: Scene, p: Consumer): number =>
  p.is === "motor" ? fullLoad_A(scene, p) : Math.hypot(p.power_W, p.reactive_var) / p.nominal_V;

/** The same current as it flows at another voltage of the cabinet: volt-amperes stay what they are. */
const carried = (scene: Scene, p: Consumer, at_V: number, own_A: number): number =>
  (own_A * scene.nominal_V(p.name)) / at_V;

export interface DesignCurrent {
  /** Of all that is fed through the part: the largest motor once and a quarter, the others once. */
  readonly conductor_A: number;
  /** The same without the quarter. */
  readonly sum_A: number;
  /** The largest motor's own; 0 without one. */
  readonly largestMotor_A: number;
  readonly onlyMotors: boolean;
}

/**
 * Current that a part must be made for, at its own voltage, by rule rather than by simulation: arithmetic sums,
 * which stay on the safe side.
 *
 * Source: NEC 430.22 and 430.24 (125 % of the largest motor and the sum of the rest).
 */
export function designCurrent(scene: Scene, part: string, at_V: number): DesignCurrent {
  const consumers = scene.tree.consumersBehind(part);
  const each = consumers.map((p) => ({
    p,
    current_A: carried(scene, p, at_V, ownCurrent_A(scene, p)),
  }));
  const sum_A = each.reduce((sum, { current_A }) => sum + current_A, 0);
  const motors = each.filter(({ p }) => p.is === "motor").map(({ current_A }) => current_A);
  const largestMotor_A = Math.max(0, ...motors);
  return {
    conductor_A: sum_A + 0.25 * largestMotor_A,
    sum_A,
    largestMotor_A,
    onlyMotors: consumers.length > 0 && motors.length === consumers.length,
  };
}
