import type { Leg } from "@startgap/circuit";
import type { Issue } from "../issue.ts";
import { type RecordOf, record } from "../shape/record.ts";
import { type Built, isField, kind, placeFields, type Surroundings } from "./kind.ts";
import { builtFrom, windingFields } from "./windings.ts";

const fields = { is: isField("autotransformer"), ...placeFields, ...windingFields } as const;

type Spec = RecordOf<typeof fields>;

const build = (spec: Spec, around: Surroundings): Built | readonly Issue[] =>
  builtFrom("autotransformer", spec, around);

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
