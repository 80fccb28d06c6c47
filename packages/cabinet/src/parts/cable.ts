import type { CableParameters } from "@startgap/circuit";
import type { Issue } from "../issue.ts";
import { may, type RecordOf, record } from "../shape/composites.ts";
import { impedance, ohms } from "./common.ts";
import { type Built, isField, kind, place, placeFields, type Surroundings } from "./kind.ts";

const fields = {
  is: isField("cable"),
  ...placeFields,
  impedance: may(impedance, "Impedance of the whole loop, out and back."),
} as const;

type Spec = RecordOf<typeof fields>;

function build(spec: Spec, around: Surroundings): Built | readonly Issue[] {
  const parameters: CableParameters = { is: "cable", ...place(around), ...ohms(spec.impedance!) };
  return { parameters, assumptions: [], notes: [] };
}

/** A two-wire cable. */
export const cable = kind<Spec>({
  is: "cable",
  doc: "A two-wire cable, out and back.",
  shape: record("a cable", fields, { ways: [{ needs: ["impedance"] }] }),
  feeds: true,
  build,
});
