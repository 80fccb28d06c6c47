import type { CableParameters } from "@startgap/circuit";
import { cableImpedance } from "../cable/cable.ts";
import type { Issue } from "../issue.ts";
import { may, type RecordOf, record } from "../shape/record.ts";
import { impedance, ohms } from "./common.ts";
import { type Built, isField, kind, place, placeFields, type Surroundings } from "./kind.ts";
import { wireFields, wireOf } from "./wire.ts";

const fields = {
  is: isField("cable"),
  ...placeFields,
  ...wireFields,
  impedance: may(impedance, "Impedance of the whole loop, out and back, outright."),
} as const;

type Spec = RecordOf<typeof fields>;

function build(spec: Spec, around: Surroundings): Built | readonly Issue[] {
  const base = { is: "cable", ...place(around) } as const;
  if (spec.impedance !== null) {
    const parameters: CableParameters = { ...base, ...ohms(spec.impedance) };
    return { parameters, assumptions: [], notes: [] };
  }
  const found = cableImpedance(wireOf(spec, around.frequency_Hz), around.name);
  if (!("value" in found)) return found;
  return { parameters: { ...base, ...found.value }, assumptions: found.assumptions, notes: [] };
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
