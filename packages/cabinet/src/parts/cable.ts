import type { CableParameters } from "@startgap/circuit";
import { cableImpedance } from "../cable/cable.ts";
import { type Conductor, conductorNamed } from "../cable/conductor.ts";
import type { CableFacts } from "../facts.ts";
import type { Issue } from "../issue.ts";
import { may, type RecordOf, record } from "../shape/record.ts";
import { oneOf } from "../shape/scalars.ts";
import { impedance, ohms } from "./common.ts";
import { type Built, isField, kind, place, placeFields, type Surroundings } from "./kind.ts";
import { wireFields, wireOf } from "./wire.ts";

const fields = {
  is: isField("cable"),
  ...placeFields,
  ...wireFields,
  impedance: may(impedance, "Impedance of the whole loop, out and back, outright."),
  insulation: may(
    oneOf("what insulation and terminals are good for", ["60 degC", "75 degC", "90 degC"]),
    "Temperature that insulation and terminals are good for: 60 degC when silent. Judged, not simulated.",
  ),
} as const;

type Spec = RecordOf<typeof fields>;

/** The way that states a conductor has been checked by then. */
function factsOf(spec: Spec): CableFacts {
  const named = spec.conductor === null ? null : conductorNamed(spec.conductor);
  return {
    is: "cable",
    conductor: named as Conductor | null,
    length_m: spec.length?.nominal ?? null,
    insulation_C: spec.insulation === null ? null : (Number.parseInt(spec.insulation, 10) as 60 | 75 | 90),
  };
}

function build(spec: Spec, around: Surroundings): Built | readonly Issue[] {
  const base = { is: "cable", ...place(around) } as const;
  if (spec.impedance !== null) {
    const parameters: CableParameters = { ...base, ...ohms(spec.impedance) };
    return { parameters, assumptions: [], notes: [], facts: factsOf(spec) };
  }
  const found = cableImpedance(wireOf(spec, around.frequency_Hz), around.name);
  if (!("value" in found)) return found;
  const parameters: CableParameters = { ...base, ...found.value };
  return { parameters, assumptions: found.assumptions, notes: [], facts: factsOf(spec) };
}

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
