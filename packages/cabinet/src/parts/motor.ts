import type { Machine, MotorParameters } from "@startgap/circuit";
import type { MotorFacts } from "../facts.ts";
import type { Derived } from "../grade.ts";
import type { Issue } from "../issue.ts";
import { motorFromNameplate, type Rated } from "../motor/motorFromNameplate.ts";
import { may, type RecordOf, record } from "../shape/record.ts";
import { oneOf, quantity } from "../shape/scalars.ts";
import { airAssumptions, airLinks, compressorFrom } from "./compressor.ts";
import { driveFrom, drives, unloaded } from "./drives.ts";
import { type Built, isField, kind, place, placeFields, type Surroundings } from "./kind.ts";
import { circuitIssues, machineOf, motorCircuit } from "./motorCircuit.ts";
import { nameplate, plateOf } from "./nameplate.ts";

const fields = {
  is: isField("motor"),
  ...placeFields,
  nameplate: may(nameplate, "What its plate says; what it does not say is assumed, and told."),
  circuit: may(motorCircuit, "Its equivalent circuit, outright: nothing is added to it."),
  drives: may(drives, "What it drives; nothing when silent."),
  overload: may(
    quantity("current", { a: "an overload setting", from: "0.1 A", to: "300 A", example: "20 A" }),
    "Setting of the overload relay in its line. Judged, not simulated.",
  ),
  builtInProtector: may(
    oneOf("whether a thermal protector is built into it", ["yes", "no"]),
    "Whether a thermal protector is built into it. Judged, not simulated.",
  ),
} as const;

type Spec = RecordOf<typeof fields>;

/** A motor however it was stated: its circuit at the frequency it was stated for, and its own inertia. */
interface Found {
  readonly machine: Machine;
  readonly inertia_kgm2: number;
  /** Null when only the circuit is known. */
  readonly rated: Rated | null;
  readonly notes: readonly string[];
}

function outright(spec: Spec, around: Surroundings): Derived<Found> | readonly Issue[] {
  const circuit = spec.circuit!;
  const issues = circuitIssues(circuit);
  if (issues.length > 0) return issues;
  const machine = machineOf(circuit, around.stated_Hz);
  return {
    value: { machine, inertia_kgm2: circuit.inertia.nominal, rated: null, notes: [] },
    assumptions: [],
  };
}

function fromPlate(spec: Spec, around: Surroundings): Derived<Found> | readonly Issue[] {
  const plate = plateOf(spec.nameplate!, around.stated_Hz);
  const found = motorFromNameplate(plate, around.name);
  if (!("value" in found)) return found;
  const { machine, inertia_kgm2, rated, contradictions } = found.value;
  const notes = [
    ...contradictions.map((sentence) => `${around.name}: ${sentence}`),
    ...frequencyNotes(around.name, plate.frequency_Hz, around.frequency_Hz),
  ];
  const value = {
    machine,
    inertia_kgm2,
    rated,
    notes,
  };
  return { value, assumptions: found.assumptions };
}

/** A motor keeps its promises within 5 % of its rated frequency. Source: NEMA MG 1, 12.44 (from memory). */
const FREQUENCY_BAND = 0.05;

function frequencyNotes(part: string, rated_Hz: number, supply_Hz: number): string[] {
  if (Math.abs(supply_Hz / rated_Hz - 1) <= FREQUENCY_BAND) return [];
  return [`${part}: made for ${rated_Hz} Hz, fed with ${supply_Hz} Hz; NEMA MG 1, 12.44 allows 5 %`];
}

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

function factsOf(spec: Spec, rated: Rated | null): MotorFacts {
  const { nameplate: plate, builtInProtector } = spec;
  return {
    is: "motor",
    power_W: rated?.power_W ?? null,
    voltage_V: plate?.voltage.nominal ?? null,
    type: plate === null ? null : (plate.type ?? "capacitor-start"),
    serviceFactor: plate?.serviceFactor?.nominal ?? null,
    insulation: plate?.insulation ?? null,
    overload_A: spec.overload?.nominal ?? null,
    builtInProtector: builtInProtector === null ? null : builtInProtector === "yes",
  };
}

function build(spec: Spec, around: Surroundings): Built | readonly Issue[] {
  const found = spec.circuit === null ? fromPlate(spec, around) : outright(spec, around);
  if (!("value" in found)) return found;
  const { machine, inertia_kgm2, rated, notes } = found.value;
  const drive = spec.drives === null ? unloaded : driveFrom(spec.drives, machine, rated, around.name);
  const parameters: MotorParameters = {
    is: "motor",
    ...place(around),
    machine,
    inertia_kgm2: inertia_kgm2 + drive.inertia_kgm2,
    drives: drive.drives,
    fullLoad_A: rated?.current_A ?? null,
    ...compressorFrom(spec.drives, machine, rated),
  };
  const facts = factsOf(spec, rated);
  const unfit = voltageNotes(around.name, machine.voltage_V, around.input_V);
  const air = airAssumptions(spec.drives, around.name);
  const assumptions = [...found.assumptions, ...drive.assumptions, ...air];
  return { parameters, assumptions, notes: [...notes, ...unfit], facts };
}

/** A single-phase induction motor and what it drives. */
export const motor = kind<Spec>({
  is: "motor",
  doc: "A single-phase induction motor and what it drives.",
  shape: record("a motor", fields, { ways: [{ needs: ["nameplate"] }, { needs: ["circuit"] }] }),
  feeds: false,
  build,
  links: ({ drives: driven }) => airLinks(driven),
});
