import type { AutotransformerParameters, Leg } from "@startgap/circuit";
import type { Issue } from "../issue.ts";
import { type RecordOf, record } from "../shape/record.ts";
import { type Built, isField, kind, place, placeFields, type Surroundings } from "./kind.ts";
import { coreNotes, windingFacts, windingFields, windingsFrom } from "./windings.ts";

const fields = { is: isField("autotransformer"), ...placeFields, ...windingFields } as const;

type Spec = RecordOf<typeof fields>;

function build(spec: Spec, around: Surroundings): Built | readonly Issue[] {
  const found = windingsFrom("autotransformer", spec, around);
  if (!("value" in found)) return found;
  const { windings_V, rating_VA, r_ohm, x_ohm, excitation } = found.value;
  const parameters: AutotransformerParameters = {
    is: "autotransformer",
    ...place(around),
    r_ohm,
    x_ohm,
    windings_V,
    rating_VA: rating_VA ?? Number.POSITIVE_INFINITY,
    excitation,
  };
  const facts = windingFacts("autotransformer", spec);
  return { parameters, assumptions: found.assumptions, notes: coreNotes(found.value, around), facts };
}

/** The input stands across both windings; each leg has its share of it by turns. */
function outputOf(spec: Spec, input_V: number, leg: Leg): number {
  const [first, second] = [spec.windings[0].nominal, spec.windings[1].nominal];
  if (leg === "both") return input_V;
  return (input_V * (leg === "first" ? first : second)) / (first + second);
}

/** Two windings in series across the line, with a midpoint that makes two legs. */
export const autotransformer = kind<Spec>({
  is: "autotransformer",
  doc: "Two windings in series across the line, with a midpoint that makes two legs.",
  shape: record("an autotransformer", fields),
  feeds: true,
  build,
  output_V: outputOf,
});
