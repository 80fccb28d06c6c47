import type { TransformerParameters } from "@startgap/circuit";
import type { Issue } from "../issue.ts";
import { type RecordOf, record } from "../shape/composites.ts";
import { ohms } from "./common.ts";
import { type Built, isField, kind, place, placeFields, type Surroundings } from "./kind.ts";
import { excitation, leakage, windingFields, windingIssues } from "./windings.ts";

const fields = { is: isField("transformer"), ...placeFields, ...windingFields } as const;

type Spec = RecordOf<typeof fields>;

function build(spec: Spec, around: Surroundings): Built | readonly Issue[] {
  const issues = windingIssues(spec);
  if (issues.length > 0) return issues;
  const [first, second] = spec.windings;
  const z = spec.impedance!;
  const parameters: TransformerParameters = {
    is: "transformer",
    ...place(around),
    ...("r" in z ? ohms(z) : leakage(z, spec.xOverR?.nominal ?? 1, spec.rating.nominal, first.nominal)),
    windings_V: [first.nominal, second.nominal],
    rating_VA: spec.rating.nominal,
    excitation: excitation(spec, first.nominal),
  };
  return { parameters, assumptions: [], notes: [] };
}

/** A transformer of two separate windings. */
export const transformer = kind<Spec>({
  is: "transformer",
  doc: "A transformer of two separate windings: the first is fed, the second feeds.",
  shape: record("a transformer", fields, { ways: [{ needs: ["impedance"], takes: ["xOverR"] }] }),
  feeds: true,
  build,
  output_V: (spec, input_V) => (input_V * spec.windings[1].nominal) / spec.windings[0].nominal,
});
