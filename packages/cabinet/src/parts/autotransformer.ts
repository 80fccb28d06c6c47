import type { AutotransformerParameters, Leg } from "@startgap/circuit";
import type { Issue } from "../issue.ts";
import { type RecordOf, record } from "../shape/composites.ts";
import { ohms } from "./common.ts";
import { type Built, isField, kind, place, placeFields, type Surroundings } from "./kind.ts";
import { excitation, leakage, windingFields, windingIssues } from "./windings.ts";

const fields = { is: isField("autotransformer"), ...placeFields, ...windingFields } as const;

type Spec = RecordOf<typeof fields>;

function build(spec: Spec, around: Surroundings): Built | readonly Issue[] {
  const issues = windingIssues(spec);
  if (issues.length > 0) return issues;
  const [first, second] = spec.windings;
  const z = spec.impedance!;
  const parameters: AutotransformerParameters = {
    is: "autotransformer",
    ...place(around),
    ...("r" in z ? ohms(z) : leakage(z, spec.xOverR?.nominal ?? 1, spec.rating.nominal, first.nominal)),
    windings_V: [first.nominal, second.nominal],
    rating_VA: spec.rating.nominal,
    excitation: excitation(spec, first.nominal + second.nominal),
  };
  return { parameters, assumptions: [], notes: [] };
}

/** The input stands across both windings; each leg has its share of it by turns. */
function output_V(spec: Spec, input_V: number, leg: Leg): number {
  const [first, second] = [spec.windings[0].nominal, spec.windings[1].nominal];
  if (leg === "both") return input_V;
  return (input_V * (leg === "first" ? first : second)) / (first + second);
}

/** Two windings in series across the line, with a midpoint. */
export const autotransformer = kind<Spec>({
  is: "autotransformer",
  doc: "Two windings in series across the line, with a midpoint that makes two legs.",
  shape: record("an autotransformer", fields, { ways: [{ needs: ["impedance"], takes: ["xOverR"] }] }),
  feeds: true,
  build,
  output_V,
});
