import type { TransformerParameters } from "@startgap/circuit";
import type { Issue } from "../issue.ts";
import { type RecordOf, record } from "../shape/record.ts";
import { type Built, isField, kind, place, placeFields, type Surroundings } from "./kind.ts";
import { coreNotes, windingFacts, windingFields, windingsFrom } from "./windings.ts";

const fields = { is: isField("transformer"), ...placeFields, ...windingFields } as const;

type Spec = RecordOf<typeof fields>;

function build(spec: Spec, around: Surroundings): Built | readonly Issue[] {
  const found = windingsFrom("transformer", spec, around);
  if (!("value" in found)) return found;
  const { windings_V, rating_VA, r_ohm, x_ohm, excitation } = found.value;
  const parameters: TransformerParameters = {
    is: "transformer",
    ...place(around),
    r_ohm,
    x_ohm,
    windings_V,
    rating_VA: rating_VA ?? Number.POSITIVE_INFINITY,
    excitation,
  };
  const facts = windingFacts("transformer", spec);
  return { parameters, assumptions: found.assumptions, notes: coreNotes(found.value, around), facts };
}

/** A transformer of two separate windings: the first is fed, the second feeds. */
export const transformer = kind<Spec>({
  is: "transformer",
  doc: "A transformer of two separate windings: the first is fed, the second feeds.",
  shape: record("a transformer", fields),
  feeds: true,
  build,
  output_V: (spec, input_V) => (input_V * spec.windings[1].nominal) / spec.windings[0].nominal,
});
