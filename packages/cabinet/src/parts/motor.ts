import type { MotorParameters } from "@startgap/circuit";
import type { Issue } from "../issue.ts";
import { may, type RecordOf, record } from "../shape/composites.ts";
import { drives, torqueOf, unloaded } from "./drives.ts";
import { type Built, isField, kind, place, placeFields, type Surroundings } from "./kind.ts";
import { circuitIssues, machineOf, motorCircuit } from "./motorCircuit.ts";

const fields = {
  is: isField("motor"),
  ...placeFields,
  circuit: may(motorCircuit, "Its equivalent circuit, outright: nothing is added to it."),
  drives: may(drives, "What it drives; nothing when silent."),
} as const;

type Spec = RecordOf<typeof fields>;

/** A motor keeps its promises within 10 % of its rated voltage. Source: NEMA MG 1, 12.44. */
const VOLTAGE_BAND = 0.1;

/** Says when the voltage that feeds a motor is not the one it was made for. */
function voltageNotes(part: string, rated_V: number, input_V: number): string[] {
  const off = input_V / rated_V - 1;
  if (Math.abs(off) <= VOLTAGE_BAND) return [];
  const volts = (v: number): string => `${Number(v.toPrecision(4))} V`;
  const by = `${Math.round(Math.abs(off) * 100)} % ${off > 0 ? "above" : "below"}`;
  return [
    `${part}: made for ${volts(rated_V)}, fed with ${volts(input_V)}, ${by}; NEMA MG 1, 12.44 allows 10 %`,
  ];
}

function build(spec: Spec, around: Surroundings): Built | readonly Issue[] {
  const circuit = spec.circuit!;
  const issues = circuitIssues(circuit);
  if (issues.length > 0) return issues;
  const machine = machineOf(circuit, around.frequency_Hz);
  const parameters: MotorParameters = {
    is: "motor",
    ...place(around),
    machine,
    inertia_kgm2: circuit.inertia.nominal + (spec.drives?.inertia.nominal ?? 0),
    drives: spec.drives === null ? unloaded : torqueOf(spec.drives),
    fullLoad_A: null,
  };
  return { parameters, assumptions: [], notes: voltageNotes(around.name, machine.voltage_V, around.input_V) };
}

/** A single-phase induction motor and what it drives. */
export const motor = kind<Spec>({
  is: "motor",
  doc: "A single-phase induction motor and what it drives.",
  shape: record("a motor", fields, { ways: [{ needs: ["circuit"] }] }),
  feeds: false,
  build,
});
