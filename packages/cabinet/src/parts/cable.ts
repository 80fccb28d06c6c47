import type { CableParameters } from "@startgap/circuit";
import { type CableSpec, cableImpedance } from "../cable/cable.ts";
import { conductorNamed } from "../cable/conductor.ts";
import { runs } from "../cable/reactance.ts";
import type { Issue } from "../issue.ts";
import { may, type RecordOf, record } from "../shape/composites.ts";
import { oneOf, quantity } from "../shape/scalars.ts";
import { type Shape, wrong } from "../shape/shape.ts";
import { impedance, ohms } from "./common.ts";
import { type Built, isField, kind, place, placeFields, type Surroundings } from "./kind.ts";

const CONDUCTOR = `a wire size and its metal, as "12 AWG Cu" or "2.5 mm2 Cu"`;

/** The name of a conductor that the tables know. */
const conductor: Shape<string> = {
  expected: CONDUCTOR,
  read(value, path, reading) {
    const found = conductorNamed(value);
    if (!("path" in found)) return found.name;
    return wrong(reading, path, found.expected, value, found.nearest);
  },
  schema: { type: "string", minLength: 1, maxLength: 80, examples: ["12 AWG Cu", "2.5 mm2 Cu"] },
};

const fields = {
  is: isField("cable"),
  ...placeFields,
  conductor: may(conductor, "Size and metal of one wire; the other is the same."),
  length: may(
    quantity("length", { from: "1 mm", to: "10 km", example: "40 ft" }),
    "Length of the way out; the way back is the same.",
  ),
  temperature: may(
    quantity("temperature", { from: "-40 degC", to: "150 degC", example: "30 degC" }),
    "Temperature of the metal: 30 degC when silent.",
  ),
  run: may(oneOf("how the wires run", runs), "How the wires run: in plastic conduit when silent."),
  impedance: may(impedance, "Impedance of the whole loop, out and back, outright."),
} as const;

type Spec = RecordOf<typeof fields>;

function build(spec: Spec, around: Surroundings): Built | readonly Issue[] {
  const base = { is: "cable", ...place(around) } as const;
  if (spec.impedance !== null) {
    const parameters: CableParameters = { ...base, ...ohms(spec.impedance) };
    return { parameters, assumptions: [], notes: [] };
  }
  const found = cableImpedance(cableSpec(spec, around), around.name);
  if (!("value" in found)) return found;
  return { parameters: { ...base, ...found.value }, assumptions: found.assumptions, notes: [] };
}

const cableSpec = (spec: Spec, around: Surroundings): CableSpec => ({
  conductor: spec.conductor ?? "",
  length_m: spec.length?.nominal ?? 0,
  temperature_C: spec.temperature?.nominal,
  run: spec.run ?? undefined,
  frequency_Hz: around.frequency_Hz,
});

/** A two-wire cable. */
export const cable = kind<Spec>({
  is: "cable",
  doc: "A two-wire cable, out and back.",
  shape: record("a cable", fields, {
    ways: [{ needs: ["conductor", "length"], takes: ["temperature", "run"] }, { needs: ["impedance"] }],
  }),
  feeds: true,
  build,
});
